using Recommender.Domain.Needs;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Explanations;

/// <summary>Share of a score by basis: of the leaves' absolute points; sums to 1.</summary>
/// <param name="Published">0 to 1, three decimals.</param>
/// <param name="Modelled">0 to 1, three decimals.</param>
/// <param name="CommonPractice">0 to 1, three decimals.</param>
/// <param name="Recalled">0 to 1, three decimals.</param>
public sealed record EvidenceShare(decimal Published, decimal Modelled, decimal CommonPractice, decimal Recalled)
{
    /// <summary>The share of some contributions; at least one leaf must have points.</summary>
    public static EvidenceShare Of(IReadOnlyList<Contribution> contributions)
    {
        Span<long> points = stackalloc long[4];
        for (var i = 0; i < contributions.Count; i++)
        {
            Add(contributions[i].Details, points);
        }

        Span<int> shares = stackalloc int[4];
        LargestRemainder.Apportion(points, 1000, shares);
        return new EvidenceShare(shares[0] / 1000m, shares[1] / 1000m, shares[2] / 1000m, shares[3] / 1000m);
    }

    private static void Add(IReadOnlyList<Detail> details, Span<long> points)
    {
        for (var i = 0; i < details.Count; i++)
        {
            var detail = details[i];
            if (detail.Details.Count == 0)
            {
                points[(int)detail.Basis] += Math.Abs(detail.Points.Thousandths);
            }
            else
            {
                Add(detail.Details, points);
            }
        }
    }
}
