using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Substitutions;

/// <summary>What the reason of a swap takes from an exercise in the order of substitutes: for pain its load on what is sore, for competence its difficulty.</summary>
internal sealed class SwapReason
{
    private readonly ExerciseCatalogue catalogue;
    private readonly SubstitutionOrder order;
    private readonly int[] sore;
    private readonly int? complexity;

    /// <param name="reason">Reason as sent, or null.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="limits">Limits of the complaints; their regions are sore.</param>
    /// <param name="replaced">The replaced exercise.</param>
    public SwapReason(string? reason, Situation situation, TissueLimits limits, Traits replaced)
    {
        (catalogue, order) = (situation.Catalogue, situation.Knowledge.Substitution.Order);
        sore = reason == "pain" ? [.. limits.Rows.Select(r => r.Region)] : [];
        complexity = reason == "competence" && replaced.Id is { } id ? catalogue.Find(id)!.Complexity : null;
    }

    /// <summary>Thousandths of likeness.</summary>
    /// <param name="position">Catalogue position.</param>
    public int Takes(int position)
    {
        var highest = 0;
        foreach (var region in sore)
        {
            highest = Math.Max(highest, catalogue.TissueHigh[(position * catalogue.RegionCount) + region]);
        }

        var harder = complexity is { } own ? Math.Max(0, catalogue.Complexities[position] - own) : 0;
        return (order.SorePerLoad * highest / 100) + (order.HarderPerStep * harder);
    }
}
