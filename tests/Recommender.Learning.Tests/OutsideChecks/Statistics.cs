namespace Recommender.Learning.Tests.OutsideChecks;

/// <summary>Rank statistics, written out here so that the tests do not lean on the package under test.</summary>
public static class Statistics
{
    /// <summary>Ranks from 1, ties at their mean.</summary>
    public static double[] Ranks(IReadOnlyList<double> values) =>
        [.. values.Select(v => values.Count(x => x < v) + ((values.Count(x => x == v) + 1) / 2.0))];

    /// <summary>Rank correlation: Pearson's of the ranks.</summary>
    public static double Spearman(IReadOnlyList<double> a, IReadOnlyList<double> b)
    {
        var (x, y) = (Ranks(a), Ranks(b));
        var (mx, my) = (x.Average(), y.Average());
        var together = x.Zip(y, (p, q) => (p - mx) * (q - my)).Sum();
        return together / Math.Sqrt(x.Sum(p => (p - mx) * (p - mx)) * y.Sum(q => (q - my) * (q - my)));
    }

    /// <summary>Rank-sum test of Mann and Whitney: U of the first group, and the one-sided chance of a U at least as large, exact over all splits.</summary>
    /// <remarks>For small groups only, since every split is enumerated; with ties these are the splits of the mid-ranks.</remarks>
    public static (double U, double Chance) MannWhitney(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var all = Ranks([.. first, .. second]);
        var observed = all.Take(first.Count).Sum();
        long total = 0, asLarge = 0;
        void Choose(int from, int left, double sum)
        {
            if (left == 0)
            {
                total++;
                asLarge += sum >= observed - 1e-9 ? 1 : 0;
                return;
            }

            for (var i = from; i <= all.Length - left; i++)
            {
                Choose(i + 1, left - 1, sum + all[i]);
            }
        }

        Choose(0, first.Count, 0);
        return (observed - (first.Count * (first.Count + 1) / 2.0), asLarge / (double)total);
    }
}
