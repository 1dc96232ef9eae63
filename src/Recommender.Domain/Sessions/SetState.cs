namespace Recommender.Domain.Sessions;

/// <summary>A set under way: what it is worth, what it uses, and what may still come.</summary>
/// <param name="table">The problem.</param>
internal sealed class SetState(SetTable table)
{
    private readonly bool[] families = new bool[table.FamilyCount];
    private readonly int[] items = new int[table.Problem.Count + 1];

    /// <summary>[layer] members so far.</summary>
    public int[] Members { get; } = new int[table.Problem.Gains.Length];

    /// <summary>[row] used so far.</summary>
    public long[] Used { get; } = new long[table.Limits.Length];

    /// <summary>Items so far.</summary>
    public int Count { get; private set; }

    /// <summary>Points so far.</summary>
    public int Value { get; private set; }

    /// <summary>The items, ascending.</summary>
    public int[] Items => [.. items.AsSpan(0, Count).ToArray().Order()];

    /// <summary>Points that a further item would bring.</summary>
    public int Gain(int item)
    {
        var gain = table.Problem.Own[item];
        foreach (var layer in table.LayersOf(item))
        {
            gain += table.Problem.GainOf(layer, Members[layer]);
        }

        return gain;
    }

    /// <summary>Adds an item.</summary>
    public void Add(int item)
    {
        Value += Gain(item);
        foreach (var layer in table.LayersOf(item))
        {
            Members[layer]++;
        }

        var rows = table.RowsOf(item);
        var coefficients = table.CoefficientsOf(item);
        for (var k = 0; k < rows.Length; k++)
        {
            Used[rows[k]] += coefficients[k];
        }

        families[table.Problem.Families[item]] = true;
        items[Count++] = item;
    }

    /// <summary>Takes out the item at a place.</summary>
    public int RemoveAt(int place)
    {
        var item = items[place];
        foreach (var layer in table.LayersOf(item))
        {
            Members[layer]--;
        }

        var rows = table.RowsOf(item);
        var coefficients = table.CoefficientsOf(item);
        for (var k = 0; k < rows.Length; k++)
        {
            Used[rows[k]] -= coefficients[k];
        }

        families[table.Problem.Families[item]] = false;
        items[place] = items[--Count];
        Value -= Gain(item);
        return item;
    }

    /// <summary>Takes out an item that is in.</summary>
    public void Remove(int item) => RemoveAt(Array.IndexOf(items, item, 0, Count));

    /// <summary>Whether an item may be added and every limit still be kept, by it or by some set that adds further items.</summary>
    public bool Fits(int item)
    {
        if (families[table.Problem.Families[item]])
        {
            return false;
        }

        // Rows in which the item has no coefficient are kept or recovered as before, but for one place fewer to recover in.
        var after = table.Problem.Most - Count - 1;
        var rows = table.RowsOf(item);
        var coefficients = table.CoefficientsOf(item);
        for (var k = 0; k < rows.Length; k++)
        {
            var r = rows[k];
            if (Used[r] + coefficients[k] + ((long)table.LeastCoefficient[r] * after) > table.Limits[r])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether the limits are kept by this set or by some set that adds further items.</summary>
    public bool CanHold()
    {
        var after = table.Problem.Most - Count;
        for (var r = 0; r < Used.Length; r++)
        {
            if (Used[r] + ((long)table.LeastCoefficient[r] * after) > table.Limits[r])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether the set keeps every limit.</summary>
    public bool Holds()
    {
        if (Count < table.Problem.Least)
        {
            return false;
        }

        for (var r = 0; r < Used.Length; r++)
        {
            if (Used[r] > table.Limits[r])
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Whether the set keeps every limit once an item is added.</summary>
    public bool HoldsWith(int item)
    {
        Add(item);
        var holds = Holds();
        RemoveAt(Count - 1);
        return holds;
    }
}
