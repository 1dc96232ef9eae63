namespace Recommender.Domain.Audit;

/// <summary>
/// The smallest set of factors that decides an order: the fewest whose differences alone are more than everything that speaks the other way.
/// Exactly: the smallest set S with sum over S of d above sum over the others of max(0, -d), where d is the difference in favour of the one above.
/// </summary>
/// <remarks>A factor that speaks the other way never helps: put into S it takes as much from the left as from the right. So the largest ones in favour, taken in turn, are fewest.</remarks>
public static class DecidingFactors
{
    /// <summary>Indices of the smallest set, largest difference first; of equal ones the earlier. Empty when nothing speaks for the one above.</summary>
    /// <param name="inFavour">By factor, in favour of the one above; thousandths.</param>
    public static IReadOnlyList<int> Of(IReadOnlyList<int> inFavour)
    {
        var against = inFavour.Where(d => d < 0).Sum(d => -(long)d);
        var chosen = new List<int>();
        long sum = 0;
        foreach (var i in Enumerable.Range(0, inFavour.Count).Where(i => inFavour[i] > 0).OrderByDescending(i => inFavour[i]).ThenBy(i => i))
        {
            chosen.Add(i);
            sum += inFavour[i];
            if (sum > against)
            {
                return chosen;
            }
        }

        return [];
    }
}
