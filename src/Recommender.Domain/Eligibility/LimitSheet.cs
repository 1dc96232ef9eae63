using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>Gathers limits by region, side and loading rate; the strictest of each stands.</summary>
internal sealed class LimitSheet
{
    private const int Unlimited = 1000; // hundredths
    private static readonly int RateCount = Enum.GetValues<LoadingRate>().Length;
    private readonly List<Limit> limits = [];

    /// <summary>Adds a limit; a looser one than stands there changes nothing.</summary>
    public void Add(string region, Side side, LoadingRate rate, decimal max, Basis basis, string? source) => Add(new Limit(region, side, rate, max, basis, source));

    /// <summary>Sides of a region that stand in the sheet; both when none does.</summary>
    public IReadOnlyList<Side> SidesOf(string region) => [.. limits.Where(l => l.Region == region).Select(l => l.Side).Distinct().DefaultIfEmpty(Side.Both)];

    /// <summary>Strictest limit of each region and loading rate over its sides, hundredths; 10 where none stands. Regions ascend.</summary>
    public (int Region, int[] Hundredths)[] Rows(Vocabulary vocabulary)
    {
        var rows = new List<(int Region, int[] Hundredths)>();
        foreach (var limit in limits)
        {
            var region = vocabulary.Regions.IndexOf(limit.Region);
            var at = 0;
            while (at < rows.Count && rows[at].Region < region)
            {
                at++;
            }

            if (at == rows.Count || rows[at].Region != region)
            {
                var unlimited = new int[RateCount];
                Array.Fill(unlimited, Unlimited);
                rows.Insert(at, (region, unlimited));
            }

            ref var most = ref rows[at].Hundredths[(int)limit.LoadingRate];
            most = Math.Min(most, (int)decimal.Round(limit.MaxTissueLoad * 100));
        }

        return [.. rows];
    }

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
        var at = limits.Count - 1;
        while (at >= 0 && !(limits[at].LoadingRate == limit.LoadingRate && limits[at].Side == limit.Side && limits[at].Region == limit.Region))
        {
            at--;
        }

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
