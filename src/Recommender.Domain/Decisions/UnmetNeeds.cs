using System.Buffers;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Needs;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Decisions;

/// <summary>Says of each need that no pick serves strongly why not: what would is below the picks, is refused, or is not in the catalogue.</summary>
/// <remarks>Asks only the exercises that are strong for a need, since it runs with every answer. Benchmark: tests/Recommender.Benchmarks.</remarks>
/// <param name="catalogue">The catalogue.</param>
/// <param name="eligibility">What the gates said.</param>
/// <param name="ranking">Eligible exercises by score.</param>
internal sealed class UnmetNeeds(ExerciseCatalogue catalogue, EligibilityOutcome eligibility, Ranking ranking)
{
    /// <summary>The unmet needs, heaviest first.</summary>
    /// <param name="profile">What is needed.</param>
    /// <param name="picks">Ranks of the picks.</param>
    public List<UnmetNeed> Of(NeedProfile profile, IReadOnlyList<int> picks)
    {
        var unmet = new List<UnmetNeed>(profile.Needs.Count);
        var rankOf = ArrayPool<int>.Shared.Rent(catalogue.Count);
        Array.Fill(rankOf, int.MaxValue, 0, catalogue.Count);
        for (var rank = 0; rank < ranking.Count; rank++)
        {
            rankOf[ranking.Positions[rank]] = rank;
        }

        var served = Served(picks);
        foreach (var need in profile.Needs)
        {
            if ((served & (1UL << need.Position)) == 0)
            {
                unmet.Add(new UnmetNeed(need.Quality, Because(need, rankOf)));
            }
        }

        ArrayPool<int>.Shared.Return(rankOf);
        return unmet;
    }

    /// <summary>Bit per quality that a pick trains strongly.</summary>
    private ulong Served(IReadOnlyList<int> picks)
    {
        ulong served = 0;
        for (var i = 0; i < picks.Count; i++)
        {
            foreach (var (quality, rating) in catalogue.RatingsOf(ranking.Positions[picks[i]]))
            {
                served |= rating >= QualityRating.Strong ? 1UL << quality : 0;
            }
        }

        return served;
    }

    private string Because(Need need, int[] rankOf)
    {
        var strong = catalogue.StrongFor(need.Position);
        if (strong.IsEmpty)
        {
            return "No exercise of the catalogue trains it strongly.";
        }

        var first = int.MaxValue;
        foreach (var position in strong)
        {
            first = Math.Min(first, rankOf[position]);
        }

        return first == int.MaxValue ? Refused(strong)
            : $"Eligible, but below the picks: the first is {catalogue.Exercises[ranking.Positions[first]].Id}, rank {first + 1} by score.";
    }

    /// <summary>What keeps most of them out; of gates that keep out equally many, the first.</summary>
    private string Refused(ReadOnlySpan<int> strong)
    {
        var byGate = new int[EligibilityFilter.Gates.Count];
        foreach (var position in strong)
        {
            for (var g = 0; g < byGate.Length; g++)
            {
                byGate[g] += (int)(eligibility.RefusedBy[position] >> g) & 1;
            }
        }

        var most = byGate.Max();
        var reason = EligibilityFilter.Gates[Array.IndexOf(byGate, most)].Reason;
        return $"None of the {strong.Length} exercises that train it strongly is eligible; {most} of them: {catalogue.Vocabulary.Reasons.InSentence(reason)}.";
    }
}
