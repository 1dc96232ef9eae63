namespace Recommender.Learning.Preferences;

/// <summary>How well an order puts what was taken before what was left.</summary>
public static class OrderGain
{
    /// <summary>
    /// Normalised discounted cumulative gain over the first places: sum of relevance / log2(place + 1), over that of the best order. Relevance is 1 for what was taken, else 0.
    /// </summary>
    /// <param name="items">Relevance and score of each; equal scores keep their order.</param>
    /// <param name="top">Places that count.</param>
    /// <returns>0 to 1; null where nothing or everything was taken, since no order can be better then.</returns>
    public static double? Ndcg(IReadOnlyList<(bool Taken, int Score)> items, int top)
    {
        var taken = items.Count(i => i.Taken);
        if (taken == 0 || taken == items.Count)
        {
            return null;
        }

        var (gain, best, place) = (0.0, 0.0, 1);
        foreach (var item in items.OrderByDescending(i => i.Score).Take(top))
        {
            gain += item.Taken ? 1 / Math.Log2(place + 1) : 0;
            place++;
        }

        for (var p = 1; p <= Math.Min(top, taken); p++)
        {
            best += 1 / Math.Log2(p + 1);
        }

        return gain / best;
    }
}
