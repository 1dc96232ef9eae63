using Recommender.Domain.Sessions;

namespace Recommender.Testing;

/// <summary>Random small choices of a set, of the shape that sessions have: layers with diminishing gains, families, limits of either sign.</summary>
public static class RandomSets
{
    /// <summary>The problem of a seed; the same on every machine.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="items">How many items.</param>
    /// <param name="most">At most so many are chosen.</param>
    public static SetProblem Of(int seed, int items, int most)
    {
        var random = new Random(seed);
        var layers = random.Next(2, 9);
        var gains = Enumerable.Range(0, layers).Select(_ =>
        {
            var first = random.Next(0, 12_000);
            return new[] { first, first / 2, first / 5 };
        }).ToArray();
        var rows = new List<SetRow>
        {
            Row("minutes", _ => random.Next(5, 120), random.Next(60, 80 * most)),
            Row("budget", _ => random.Next(3) == 0 ? 0 : random.Next(0, 20_000), random.Next(0, 12_000 * most)),
            Row("difference", _ => random.Next(-1, 2), random.Next(0, 2)),
            Row("at-least", _ => random.Next(3) == 0 ? 1 - most : 1, random.Next(1, most)),
        };
        if (random.Next(3) == 0)
        {
            var locked = random.Next(items);
            rows.Add(Row("locked", i => i == locked ? -1 : 0, -1));
        }

        return new SetProblem(
            [.. Enumerable.Range(0, items).Select(_ => random.Next(-4_000, 12_000))],
            [.. Enumerable.Range(0, items).Select(_ => Enumerable.Range(0, layers).Where(_ => random.Next(3) == 0).ToArray())],
            gains,
            [.. Enumerable.Range(0, items).Select(_ => random.Next(Math.Max(1, items * 2 / 3)))],
            rows,
            random.Next(1, Math.Max(2, most - 1)),
            most);

        SetRow Row(string id, Func<int, int> coefficient, int limit) => new(id, [.. Enumerable.Range(0, items).Select(coefficient)], limit);
    }

    /// <summary>The best set by trying all of them; null when none keeps the limits.</summary>
    public static (int[]? Items, int Value) Exhaustive(SetProblem problem)
    {
        int[]? best = null;
        var value = int.MinValue;
        var set = new List<int>();
        Try(0);
        return (best, best is null ? 0 : value);

        void Try(int from)
        {
            if (problem.Holds(set) && problem.Value(set) is var worth && worth > value)
            {
                (best, value) = ([.. set], worth);
            }

            for (var i = from; i < problem.Count && set.Count < problem.Most; i++)
            {
                set.Add(i);
                Try(i + 1);
                set.RemoveAt(set.Count - 1);
            }
        }
    }
}
