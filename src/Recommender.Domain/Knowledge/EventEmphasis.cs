using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>What an event asks for in a phase: importance x phase multiplier, scaled so that the shares sum to 1.</summary>
/// <param name="Note">Event and phase in plain words.</param>
/// <param name="Qualities">Qualities that are trained then, in the order of the profile.</param>
public sealed record EventEmphasis(string Note, IReadOnlyList<EmphasisedQuality> Qualities)
{
    /// <summary>The emphasis of an event in a phase.</summary>
    public static EventEmphasis Of(EventProfile profile, PhaseEmphasis emphasis, Phase phase, Vocabulary vocabulary)
    {
        var multipliers = emphasis.Phases[phase];
        var weighted = profile.Qualities
            .Select(q => (Quality: q.Key, Weight: q.Value * multipliers.GetValueOrDefault(q.Key, emphasis.Default)))
            .Where(q => q.Weight > 0)
            .ToList();
        var sum = weighted.Sum(q => q.Weight);
        return new EventEmphasis(
            $"{vocabulary.Events.Find(profile.Event)!.Label} in {vocabulary.Phases.InSentence((int)phase)}",
            [.. weighted.Select(q => new EmphasisedQuality(q.Quality, q.Weight / sum))]);
    }
}

/// <summary>A quality's share of what an event asks for in a phase.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Share">Above 0 to 1.</param>
public sealed record EmphasisedQuality(string Quality, decimal Share);
