namespace Recommender.Domain.Sessions;

/// <summary>
/// Choose a set of items: the largest sum of own points and of layers whose n-th member brings less than the one before, inside linear limits.
/// Whole numbers throughout.
/// </summary>
/// <param name="Own">[item] points of its own; may be negative.</param>
/// <param name="Layers">[item] layers it is a member of, each once.</param>
/// <param name="Gains">[layer][n] points that the n-th member brings; never rising, never negative. Further members bring nothing.</param>
/// <param name="Families">[item] family, from 0; at most one of a family.</param>
/// <param name="Rows">Linear limits.</param>
/// <param name="Least">At least so many items.</param>
/// <param name="Most">At most so many items.</param>
public sealed record SetProblem(int[] Own, int[][] Layers, int[][] Gains, int[] Families, IReadOnlyList<SetRow> Rows, int Least, int Most)
{
    /// <summary>How many items there are.</summary>
    public int Count => Own.Length;

    /// <summary>The points of a set.</summary>
    public int Value(IEnumerable<int> items)
    {
        var members = new int[Gains.Length];
        var value = 0;
        foreach (var item in items)
        {
            value += Own[item];
            foreach (var layer in Layers[item])
            {
                value += GainOf(layer, members[layer]++);
            }
        }

        return value;
    }

    /// <summary>Points of a further member of a layer that has so many.</summary>
    public int GainOf(int layer, int members) => members < Gains[layer].Length ? Gains[layer][members] : 0;

    /// <summary>Whether a set keeps every limit.</summary>
    public bool Holds(IReadOnlyCollection<int> items) =>
        items.Count >= Least && items.Count <= Most
        && items.GroupBy(i => Families[i]).All(g => g.Count() == 1)
        && Rows.All(row => row.Used(items) <= row.Limit);
}

/// <summary>A linear limit: the coefficients of a set's items sum to at most the limit.</summary>
/// <param name="Id">Which limit it is.</param>
/// <param name="Coefficients">[item] may be negative.</param>
/// <param name="Limit">At most.</param>
public sealed record SetRow(string Id, int[] Coefficients, long Limit)
{
    /// <summary>Sum over a set.</summary>
    public long Used(IEnumerable<int> items) => items.Sum(i => (long)Coefficients[i]);
}

/// <summary>What the search found.</summary>
/// <param name="Items">The set, ascending; null when no set keeps the limits, or none was found.</param>
/// <param name="Value">Its points.</param>
/// <param name="Bound">No set has more points.</param>
/// <param name="Proven">Whether the search went through to the end: the set is the best, or there is none.</param>
/// <param name="Nodes">Sets looked at.</param>
public sealed record SetSolution(int[]? Items, int Value, int Bound, bool Proven, int Nodes)
{
    /// <summary>What no set passes, as known before the first branching.</summary>
    public int RootBound { get; init; }

    /// <summary>Items that could matter then.</summary>
    public int RootItems { get; init; }

    /// <summary>The prices then, to begin with on a problem alike.</summary>
    internal SetPrices? Prices { get; init; }
}
