using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Substitutions;

/// <summary>Traits of an exercise that the catalogue does not know.</summary>
internal static class DescribedTraits
{
    private const string Unnamed = "the described exercise";

    /// <summary>Traits of a description without faults.</summary>
    public static Traits Of(DescribedExercise described, Vocabulary words) =>
        new(null, described.Name ?? Unnamed, [.. words.Qualities.Select(q => described.Qualities!.GetValueOrDefault(q.Id))], words.Patterns.IndexOf(described.Pattern!), words.Supports.IndexOf(described.Support!),
            At(words.Directions, described.Direction), At(words.Contractions, described.Contraction), At(words.LoadingRates, described.LoadingRate), At(words.LoadBands, described.LoadBand), null, []);

    private static int At<T>(Terms<T> terms, string? id) where T : Term => id is null ? -1 : terms.IndexOf(id);
}
