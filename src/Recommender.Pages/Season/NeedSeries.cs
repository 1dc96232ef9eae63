using Recommender.Domain.Catalogue;
using Recommender.Domain.Season;

namespace Recommender.Pages.Season;

/// <summary>One quality's weight in each phase of a season.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Weights">0 to 1, a phase each, in the plan's order; 0 where it is not needed.</param>
public sealed record NeedSeries(string Quality, IReadOnlyList<decimal> Weights)
{
    /// <summary>All qualities that some phase needs: the heaviest at its peak first, equal ones in the vocabulary's order.</summary>
    public static IReadOnlyList<NeedSeries> Of(IReadOnlyList<PhaseNeeds> phases, Vocabulary words) =>
        [.. words.Qualities
            .Select(q => new NeedSeries(q.Id, [.. phases.Select(p => p.Needs.FirstOrDefault(n => n.Quality == q.Id)?.Weight ?? 0)]))
            .Where(s => s.Weights.Any(w => w > 0))
            .OrderByDescending(s => s.Weights.Max())];

    /// <summary>By how much the weight moves from the first phase to the last.</summary>
    public decimal Change => Weights[^1] - Weights[0];
}
