using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Ledger;

/// <summary>Work added up by region and side, in whole hundredths.</summary>
/// <param name="regions">Regions of the vocabulary.</param>
public sealed class LedgerSheet(int regions)
{
    private readonly long[] left = new long[regions];
    private readonly long[] right = new long[regions];

    /// <summary>Hundredths on the left.</summary>
    public long Left(int region) => left[region];

    /// <summary>Hundredths on the right.</summary>
    public long Right(int region) => right[region];

    /// <summary>Adds an entry, hundredths.</summary>
    public void Add(int region, long onLeft, long onRight)
    {
        left[region] += onLeft;
        right[region] += onRight;
    }

    /// <summary>Adds another sheet.</summary>
    public void Add(LedgerSheet other)
    {
        for (var region = 0; region < left.Length; region++)
        {
            Add(region, other.left[region], other.right[region]);
        }
    }

    /// <summary>Totals of the regions that have any, in the vocabulary's order.</summary>
    public OrderedDictionary<string, SideTotal> Totals(Vocabulary vocabulary)
    {
        var totals = new OrderedDictionary<string, SideTotal>(StringComparer.Ordinal);
        for (var region = 0; region < left.Length; region++)
        {
            if (left[region] != 0 || right[region] != 0)
            {
                totals[vocabulary.Regions[region].Id] = new SideTotal(left[region] / 100m, right[region] / 100m);
            }
        }

        return totals;
    }
}

/// <summary>Work on a region by side: loadings x load, two decimals. Never what a tissue can stand.</summary>
/// <param name="Left">Left.</param>
/// <param name="Right">Right.</param>
public sealed record SideTotal(decimal Left, decimal Right);
