namespace Recommender.Domain.Sessions;

/// <summary>What the search keeps at one depth: items that may still be added, with their worth under the prices, highest first.</summary>
internal sealed class SetLevel(SetTable table)
{
    private readonly (long Key, int Item)[] keys = new (long, int)[table.Problem.Count];

    /// <summary>Items; the first <see cref="Count"/> hold.</summary>
    public int[] Items { get; } = new int[table.Problem.Count];

    /// <summary>Their worth, in fractions of a thousandth.</summary>
    public long[] Values { get; } = new long[table.Problem.Count];

    /// <summary>How many items hold.</summary>
    public int Count { get; set; }

    /// <summary>Worth of the set under way, before further items.</summary>
    public long Constant { get; set; }

    /// <summary>The prices.</summary>
    public SetPrices Prices { get; } = new(table.Problem.Gains.Length, table.Limits.Length);

    /// <summary>Sorts by worth, highest first; equal ones by item.</summary>
    public void Sort()
    {
        for (var k = 0; k < Count; k++)
        {
            keys[k] = (-Values[k], Items[k]);
        }

        keys.AsSpan(0, Count).Sort();
        for (var k = 0; k < Count; k++)
        {
            (Values[k], Items[k]) = (-keys[k].Key, keys[k].Item);
        }
    }
}
