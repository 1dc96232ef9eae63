namespace Recommender.Benchmarks;

/// <summary>A plain table for a terminal: first column left, the others right.</summary>
internal sealed class Table(string title, params string[] head)
{
    private readonly List<string[]> rows = [head];

    public void Add(params string[] row) => rows.Add(row);

    public void Print()
    {
        Console.WriteLine();
        Console.WriteLine(title);
        var widths = head.Select((_, i) => rows.Max(r => r[i].Length)).ToArray();
        foreach (var row in rows)
        {
            Console.WriteLine("  " + string.Join("  ", row.Select((cell, i) => i == 0 ? cell.PadRight(widths[i]) : cell.PadLeft(widths[i]))));
        }
    }
}
