using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>Gathers limits by region, side and loading rate; the strictest of each stands.</summary>
internal sealed class LimitSheet
{
    private readonly List<Limit> limits = [];

    /// <summary>Adds a limit; a looser one than stands there changes nothing.</summary>
    public void Add(string region, Side side, LoadingRate rate, decimal max, Basis basis, string? source) => Add(new Limit(region, side, rate, max, basis, source));

    /// <summary>Sides of a region that stand in the sheet; both when none does.</summary>
    public IReadOnlyList<Side> SidesOf(string region) => [.. limits.Where(l => l.Region == region).Select(l => l.Side).Distinct().DefaultIfEmpty(Side.Both)];

    /// <summary>Strictest limit of each region and loading rate over its sides, hundredths; 10 where none stands.</summary>
    public (int Region, int[] Hundredths)[] Rows(Vocabulary vocabulary) =>
        [.. limits
            .GroupBy(l => vocabulary.Regions.IndexOf(l.Region))
            .OrderBy(g => g.Key)
            .Select(g => (g.Key, Enum.GetValues<LoadingRate>()
                .Select(rate => (int)decimal.Round(g.Where(l => l.LoadingRate == rate).Select(l => l.MaxTissueLoad).DefaultIfEmpty(10).Min() * 100))
                .ToArray()))];

    /// <summary>Both sheets together, the first's order first.</summary>
    public static IReadOnlyList<Limit> Strictest(LimitSheet first, LimitSheet second)
    {
        if (second.limits.Count == 0)
        {
            return first.limits;
        }

        var both = new LimitSheet();
        foreach (var limit in first.limits.Concat(second.limits))
        {
            both.Add(limit);
        }

        return both.limits;
    }

    private void Add(Limit limit)
    {
        var at = limits.FindIndex(l => l.Region == limit.Region && l.Side == limit.Side && l.LoadingRate == limit.LoadingRate);
        if (at < 0)
        {
            limits.Add(limit);
        }
        else if (limit.MaxTissueLoad < limits[at].MaxTissueLoad)
        {
            limits[at] = limit;
        }
    }
}
