namespace Recommender.Domain.Needs;

/// <summary>Whole numbers in proportion to given weights, summing exactly to a total (Hamilton's method of largest remainders).</summary>
public static class LargestRemainder
{
    /// <param name="weights">Not negative, at least one above 0.</param>
    /// <param name="total">Sum wanted, above 0.</param>
    /// <returns>One whole number a weight, in order; equal remainders go to the earlier one.</returns>
    /// <exception cref="ArgumentException">No weight is above 0.</exception>
    public static int[] Apportion(IReadOnlyList<decimal> weights, int total)
    {
        var sum = weights.Sum();
        if (sum <= 0)
        {
            throw new ArgumentException("At least one weight must be above 0.", nameof(weights));
        }

        var exact = weights.Select(w => w * total / sum).ToArray();
        var whole = exact.Select(e => (int)decimal.Floor(e)).ToArray();
        var left = total - whole.Sum();
        foreach (var i in Enumerable.Range(0, exact.Length).OrderByDescending(i => exact[i] - whole[i]).ThenBy(i => i).Take(left))
        {
            whole[i]++;
        }

        return whole;
    }
}
