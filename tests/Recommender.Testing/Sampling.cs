namespace Recommender.Testing;

/// <summary>Sampling until it means something.</summary>
public static class Sampling
{
    /// <summary>Samples on until what a test is about came up often enough, at most ten times. A single sample of fresh seeds falls short now and then by chance.</summary>
    /// <param name="enough">Whether it did.</param>
    /// <param name="sample">Samples once.</param>
    public static void Until(Func<bool> enough, Action sample)
    {
        for (var round = 0; round < 10 && !enough(); round++)
        {
            sample();
        }
    }
}
