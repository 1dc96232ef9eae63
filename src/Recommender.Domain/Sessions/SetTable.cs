namespace Recommender.Domain.Sessions;

/// <summary>A problem laid out flat for the search: each item's layers, and its coefficients that are not 0.</summary>
/// <remarks>Hot path. Benchmark: tests/Recommender.Benchmarks, session.</remarks>
internal sealed class SetTable
{
    private readonly int[] layerStart;
    private readonly int[] layerAt;
    private readonly int[] rowStart;
    private readonly int[] rowAt;
    private readonly int[] coefficients;

    /// <param name="problem">The problem.</param>
    public SetTable(SetProblem problem)
    {
        Problem = problem;
        var n = problem.Count;
        layerStart = new int[n + 1];
        rowStart = new int[n + 1];
        layerAt = [.. problem.Layers.SelectMany(l => l)];
        var rows = new List<int>();
        var values = new List<int>();
        LeastCoefficient = new int[problem.Rows.Count];
        Scale = new double[problem.Rows.Count];
        Array.Fill(Scale, 1);
        for (var i = 0; i < n; i++)
        {
            layerStart[i + 1] = layerStart[i] + problem.Layers[i].Length;
            for (var r = 0; r < problem.Rows.Count; r++)
            {
                if (problem.Rows[r].Coefficients[i] is not 0 and var coefficient)
                {
                    rows.Add(r);
                    values.Add(coefficient);
                    LeastCoefficient[r] = Math.Min(LeastCoefficient[r], coefficient);
                    Scale[r] = Math.Max(Scale[r], Math.Abs((double)coefficient));
                }
            }

            rowStart[i + 1] = rows.Count;
        }

        rowAt = [.. rows];
        coefficients = [.. values];
        Limits = [.. problem.Rows.Select(r => r.Limit)];
        FamilyCount = problem.Families.DefaultIfEmpty(0).Max() + 1;
    }

    /// <summary>The problem.</summary>
    public SetProblem Problem { get; }

    /// <summary>[row] most negative coefficient, or 0.</summary>
    public int[] LeastCoefficient { get; }

    /// <summary>[row] largest coefficient without its sign, at least 1.</summary>
    public double[] Scale { get; }

    /// <summary>[row] limit.</summary>
    public long[] Limits { get; }

    /// <summary>How many families there are.</summary>
    public int FamilyCount { get; }

    /// <summary>Layers of an item.</summary>
    public ReadOnlySpan<int> LayersOf(int item) => layerAt.AsSpan(layerStart[item], layerStart[item + 1] - layerStart[item]);

    /// <summary>Rows in which an item has a coefficient.</summary>
    public ReadOnlySpan<int> RowsOf(int item) => rowAt.AsSpan(rowStart[item], rowStart[item + 1] - rowStart[item]);

    /// <summary>Those coefficients.</summary>
    public ReadOnlySpan<int> CoefficientsOf(int item) => coefficients.AsSpan(rowStart[item], rowStart[item + 1] - rowStart[item]);
}
