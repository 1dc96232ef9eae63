namespace Recommender.Domain.Sessions;

/// <summary>
/// Prices of layers and limits (Lagrange multipliers). A member is paid by its layers, an item pays for what it uses of the limits.
/// Found by subgradient steps in floating point, then taken as whole fractions of a thousandth: whatever they are, the bound they give holds.
/// </summary>
/// <param name="layers">Layers.</param>
/// <param name="rows">Limits.</param>
internal sealed class SetPrices(int layers, int rows)
{
    /// <summary>Steps at the root.</summary>
    public const int RootRounds = 300;

    /// <summary>Steps at the root from prices of a problem alike.</summary>
    public const int KnownRounds = 80;

    /// <summary>Steps before items that cannot matter are cut away.</summary>
    public const int RoundsBetweenCuts = 40;

    /// <summary>Fewer items than this are not priced anew.</summary>
    public const int WorthPricing = 12;

    /// <summary>Fractions of a thousandth, as a power of two.</summary>
    private const int Bits = 10;
    private const int Fractions = 1 << Bits;
    private const double Nothing = 1e-9;

    private readonly long[] layerPrice = new long[layers]; // fractions
    private readonly long[] rowPrice = new long[rows]; // fractions per unit of the row
    private readonly double[] layer = new double[layers];
    private readonly double[] row = new double[rows]; // per scaled unit
    private readonly double[] perUnit = new double[rows];
    private readonly double[] layerSlope = new double[layers];
    private readonly double[] rowSlope = new double[rows];
    private readonly double[] bestLayer = new double[layers];
    private readonly double[] bestRow = new double[rows];
    private readonly int[] top = new int[64];
    private readonly double[] topValue = new double[64];

    /// <summary>Steps at a depth below the root.</summary>
    public static int RoundsAt(int depth) => depth == 1 ? 40 : depth == 2 ? 30 : 5;

    /// <summary>Whole thousandths not above a sum of fractions.</summary>
    public static int Floor(long fractions) => (int)(fractions >> Bits);

    /// <summary>The least sum of fractions that is more than so many whole thousandths.</summary>
    public static long LeastAbove(int thousandths) => ((long)thousandths + 1) << Bits;

    /// <summary>Prices to begin with: what a second member brings, and limits for nothing.</summary>
    public void Start(SetTable table)
    {
        for (var l = 0; l < layer.Length; l++)
        {
            layer[l] = table.Problem.Gains[l].Length > 1 ? table.Problem.Gains[l][1] : 0;
        }

        Array.Clear(row);
    }

    /// <summary>Takes over other prices.</summary>
    public void CopyFrom(SetPrices other)
    {
        other.layerPrice.CopyTo(layerPrice, 0);
        other.rowPrice.CopyTo(rowPrice, 0);
        other.layer.CopyTo(layer, 0);
        other.row.CopyTo(row, 0);
    }

    /// <summary>Worth of the set under way, before further items: what it has, and what layers and limits have left.</summary>
    public long Constant(SetTable table, SetState state)
    {
        var sum = (long)state.Value * Fractions;
        for (var l = 0; l < layerPrice.Length; l++)
        {
            var gains = table.Problem.Gains[l];
            for (var n = state.Members[l]; n < gains.Length; n++)
            {
                sum += Math.Max(0, ((long)gains[n] * Fractions) - layerPrice[l]);
            }
        }

        for (var r = 0; r < rowPrice.Length; r++)
        {
            sum += rowPrice[r] * (table.Limits[r] - state.Used[r]);
        }

        return sum;
    }

    /// <summary>Worth of an item under these prices.</summary>
    public long ValueOf(SetTable table, int item)
    {
        var value = (long)table.Problem.Own[item] * Fractions;
        foreach (var l in table.LayersOf(item))
        {
            value += layerPrice[l];
        }

        var at = table.RowsOf(item);
        var coefficients = table.CoefficientsOf(item);
        for (var k = 0; k < at.Length; k++)
        {
            value -= rowPrice[at[k]] * coefficients[k];
        }

        return value;
    }

    /// <summary>Lowers the bound by subgradient steps from where the prices stand; keeps the lowest.</summary>
    public void Improve(SetTable table, SetState state, ReadOnlySpan<int> items, int left, int target, int rounds)
    {
        var lowest = double.MaxValue;
        var step = 1.0;
        var idle = 0;
        for (var round = 0; round <= rounds; round++)
        {
            var bound = Relaxed(table, state, items, left, out var taken);
            if (bound < lowest - Nothing)
            {
                lowest = bound;
                layer.CopyTo(bestLayer, 0);
                row.CopyTo(bestRow, 0);
                idle = 0;
            }
            else if (++idle >= 8)
            {
                (step, idle) = (step / 2, 0);
            }

            if (round == rounds || lowest < target || !Step(table, state, taken, bound, target, step))
            {
                break;
            }
        }

        bestLayer.CopyTo(layer, 0);
        bestRow.CopyTo(row, 0);
        for (var l = 0; l < layer.Length; l++)
        {
            layerPrice[l] = (long)Math.Round(layer[l] * Fractions);
        }

        for (var r = 0; r < row.Length; r++)
        {
            rowPrice[r] = (long)Math.Round(row[r] / table.Scale[r] * Fractions);
        }
    }

    /// <summary>The relaxed problem's worth, and which items it takes (in <see cref="top"/>).</summary>
    private double Relaxed(SetTable table, SetState state, ReadOnlySpan<int> items, int left, out int taken)
    {
        taken = 0;
        for (var r = 0; r < row.Length; r++)
        {
            perUnit[r] = row[r] / table.Scale[r];
        }

        foreach (var item in items)
        {
            double value = table.Problem.Own[item];
            foreach (var l in table.LayersOf(item))
            {
                value += layer[l];
            }

            var at = table.RowsOf(item);
            var coefficients = table.CoefficientsOf(item);
            for (var k = 0; k < at.Length; k++)
            {
                value -= perUnit[at[k]] * coefficients[k];
            }

            if (value > 0 && (taken < left || value > topValue[taken - 1]))
            {
                taken = Enter(table.Problem, item, value, taken, left);
            }
        }

        double bound = state.Value;
        for (var l = 0; l < layer.Length; l++)
        {
            var gains = table.Problem.Gains[l];
            for (var n = state.Members[l]; n < gains.Length; n++)
            {
                bound += Math.Max(0, gains[n] - layer[l]);
            }
        }

        for (var r = 0; r < row.Length; r++)
        {
            bound += perUnit[r] * (table.Limits[r] - state.Used[r]);
        }

        for (var t = 0; t < taken; t++)
        {
            bound += topValue[t];
        }

        return bound;
    }

    /// <summary>Keeps the best items, one a family.</summary>
    private int Enter(SetProblem problem, int item, double value, int taken, int left)
    {
        for (var t = 0; t < taken; t++)
        {
            if (problem.Families[top[t]] == problem.Families[item])
            {
                if (topValue[t] >= value)
                {
                    return taken;
                }

                for (; t + 1 < taken; t++)
                {
                    (top[t], topValue[t]) = (top[t + 1], topValue[t + 1]);
                }

                taken--;
            }
        }

        var at = taken < left ? taken++ : taken - 1;
        while (at > 0 && topValue[at - 1] < value)
        {
            (top[at], topValue[at]) = (top[at - 1], topValue[at - 1]);
            at--;
        }

        (top[at], topValue[at]) = (item, value);
        return taken;
    }

    /// <summary>One step against the subgradient, its length by the gap to the best set so far; false where there is no way down.</summary>
    private bool Step(SetTable table, SetState state, int taken, double bound, int target, double step)
    {
        Array.Clear(layerSlope);
        for (var r = 0; r < row.Length; r++)
        {
            rowSlope[r] = (table.Limits[r] - state.Used[r]) / table.Scale[r];
        }

        for (var t = 0; t < taken; t++)
        {
            foreach (var l in table.LayersOf(top[t]))
            {
                layerSlope[l]++;
            }

            var at = table.RowsOf(top[t]);
            var coefficients = table.CoefficientsOf(top[t]);
            for (var k = 0; k < at.Length; k++)
            {
                rowSlope[at[k]] -= coefficients[k] / table.Scale[at[k]];
            }
        }

        var norm = 0.0;
        for (var l = 0; l < layer.Length; l++)
        {
            // Where the price equals a gain any slope between two is right; the one nearest to nothing is taken.
            var gains = table.Problem.Gains[l];
            var (above, level) = (0, 0);
            for (var n = state.Members[l]; n < gains.Length; n++)
            {
                above += gains[n] > layer[l] + Nothing ? 1 : 0;
                level += Math.Abs(gains[n] - layer[l]) <= Nothing ? 1 : 0;
            }

            var slope = layerSlope[l] - above;
            slope = slope > 0 ? Math.Max(0, slope - level) : slope;
            layerSlope[l] = layer[l] <= 0 && slope > 0 ? 0 : slope;
            norm += layerSlope[l] * layerSlope[l];
        }

        for (var r = 0; r < row.Length; r++)
        {
            rowSlope[r] = row[r] <= 0 && rowSlope[r] > 0 ? 0 : rowSlope[r];
            norm += rowSlope[r] * rowSlope[r];
        }

        if (norm < Nothing)
        {
            return false;
        }

        var gap = Math.Max(Math.Min(bound - target, Math.Abs(bound) * 0.25), 1);
        var length = step * gap / norm;
        for (var l = 0; l < layer.Length; l++)
        {
            layer[l] = Math.Max(0, layer[l] - (length * layerSlope[l]));
        }

        for (var r = 0; r < row.Length; r++)
        {
            row[r] = Math.Max(0, row[r] - (length * rowSlope[r]));
        }

        return true;
    }
}
