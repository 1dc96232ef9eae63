namespace Recommender.Domain.Catalogue;

/// <summary>What two exercises are compared by. Positions in the vocabulary; -1 where a description leaves it open.</summary>
/// <param name="Id">Exercise id, or null for a description.</param>
/// <param name="Name">What it is called in sentences.</param>
/// <param name="Ratings">[quality] 0 to 3.</param>
/// <param name="Pattern">Movement pattern.</param>
/// <param name="Support">Support.</param>
/// <param name="Direction">Direction of force.</param>
/// <param name="Contraction">Contraction.</param>
/// <param name="LoadingRate">Loading rate.</param>
/// <param name="LoadBand">Load band.</param>
/// <param name="Family">Variant family, or null.</param>
/// <param name="Neighbours">Ids one step easier or harder; empty for a description.</param>
public sealed record Traits(string? Id, string Name, int[] Ratings, int Pattern, int Support, int Direction, int Contraction, int LoadingRate, int LoadBand, string? Family, IReadOnlyList<string> Neighbours)
{
    /// <summary>Positions of the qualities rated above 0, ascending. Ratings put in later with <c>with</c> must be 0 elsewhere.</summary>
    public int[] Rated { get; } = [.. Enumerable.Range(0, Ratings.Length).Where(q => Ratings[q] > 0)];

    /// <summary>Traits of an exercise of the catalogue.</summary>
    internal static Traits Of(Exercise exercise, Vocabulary words) =>
        new Traits(exercise.Id, exercise.Name, [.. words.Qualities.Select(q => exercise.Qualities.TryGetValue(q.Id, out var r) ? r.Value : 0)], words.Patterns.IndexOf(exercise.Pattern),
            (int)exercise.Support, words.Directions.IndexOf(exercise.Direction), words.Contractions.IndexOf(exercise.Contraction), (int)exercise.LoadingRate, (int)exercise.LoadBand, exercise.Family, [.. exercise.Progressions, .. exercise.Regressions]);
}
