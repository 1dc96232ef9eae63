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
        decimal sum = 0;
        for (var i = 0; i < weights.Count; i++)
        {
            sum += weights[i];
        }

        if (sum <= 0)
        {
            throw new ArgumentException("At least one weight must be above 0.", nameof(weights));
        }

        var whole = new int[weights.Count];
        var remainders = new decimal[weights.Count];
        var left = total;
        for (var i = 0; i < whole.Length; i++)
        {
            if (weights[i] > 0)
            {
                // What is left is a product less a product, as in the whole weights below: a quotient is rounded by where its point stands, and
                // of two equal remainders the one of the smaller share would have come out the larger.
                var exact = weights[i] * total;
                whole[i] = (int)(exact / sum);
                remainders[i] = exact - (whole[i] * sum);
                left -= whole[i];
            }
        }

        for (; left > 0; left--)
        {
            var largest = 0;
            for (var i = 1; i < remainders.Length; i++)
            {
                largest = remainders[i] > remainders[largest] ? i : largest;
            }

            whole[largest]++;
            remainders[largest] = -1;
        }

        return whole;
    }

    /// <summary>The same for whole weights, without allocation.</summary>
    /// <param name="weights">Not negative, at least one above 0, small enough that a weight times the total fits.</param>
    /// <param name="total">Sum wanted, above 0.</param>
    /// <param name="whole">Gets one whole number a weight, in order; equal remainders go to the earlier one.</param>
    /// <exception cref="ArgumentException">No weight is above 0.</exception>
    public static void Apportion(ReadOnlySpan<long> weights, int total, Span<int> whole)
    {
        long sum = 0;
        foreach (var weight in weights)
        {
            sum += weight;
        }

        if (sum <= 0)
        {
            throw new ArgumentException("At least one weight must be above 0.", nameof(weights));
        }

        Span<long> remainders = stackalloc long[weights.Length];
        var left = total;
        for (var i = 0; i < weights.Length; i++)
        {
            (var share, remainders[i]) = Math.DivRem(weights[i] * total, sum);
            whole[i] = (int)share;
            left -= whole[i];
        }

        for (; left > 0; left--)
        {
            var largest = 0;
            for (var i = 1; i < remainders.Length; i++)
            {
                largest = remainders[i] > remainders[largest] ? i : largest;
            }

            whole[largest]++;
            remainders[largest] = -1;
        }
    }
}
