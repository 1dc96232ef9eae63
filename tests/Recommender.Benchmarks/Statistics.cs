namespace Recommender.Benchmarks;

/// <summary>Order statistics of a sample.</summary>
internal static class Statistics
{
    public static double Median(IEnumerable<double> sample) => Quantile([.. sample.Order()], 0.5);

    /// <param name="sorted">Ascending, not empty.</param>
    /// <param name="q">0 to 1.</param>
    public static double Quantile(double[] sorted, double q) => sorted[(int)Math.Min(sorted.Length - 1, Math.Floor(q * sorted.Length))];
}
