using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using CsvHelper;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;

namespace Recommender.Answers.ExerciseFiles;

/// <summary>Something wrong in a cell of an edited table.</summary>
/// <param name="Row">Row as a spreadsheet counts: the header is 1.</param>
/// <param name="Column">Header of the column; empty for the row as a whole.</param>
/// <param name="Reason">What is wrong and what would be right.</param>
public sealed record CellFault(int Row, string Column, string Reason);

/// <summary>The table of exercises as RFC 4180 text, written so that no spreadsheet runs a cell as a formula, and read back to the same exercises.</summary>
public static partial class ExerciseCsv
{
    /// <summary>Media type of the table.</summary>
    public const string MediaType = "text/csv";

    /// <summary>The header is a row like any other, since it is checked; empty lines count as rows, since a spreadsheet counts them.</summary>
    private static readonly CsvReaderOptions Rfc4180 = CsvReaderOptions.Default with
    {
        Separator = ',',
        HasHeader = false,
        SkipEmptyLines = false,
        FieldCountMismatch = CsvFieldCountHandling.Allow,
        MalformedData = CsvMalformedDataHandling.Throw,
    };

    /// <summary>Writes exercises, header first.</summary>
    public static byte[] Write(IEnumerable<Exercise> exercises, ExerciseTable table)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = CsvWriter.Create(text))
        {
            csv.WriteRecord([.. table.Columns.Select(c => c.Name)]);
            foreach (var exercise in exercises)
            {
                var node = JsonSerializer.SerializeToNode(exercise, WireJson.Default.Exercise)!.AsObject();
                csv.WriteRecord([.. table.Columns.Select(c => Guarded(ExerciseTable.CellOf(node, c)))]);
            }
        }

        return Encoding.UTF8.GetBytes(text.ToString());
    }

    /// <summary>Reads a table into exercises in the shape of the data files.</summary>
    /// <param name="text">The table.</param>
    /// <param name="table">Its columns; every one must be there, in any order, and no other.</param>
    /// <param name="faults">Takes what is wrong; a cell that cannot be read keeps its text.</param>
    /// <returns>Rows as a spreadsheet counts, with their exercises; none when the header cannot be used.</returns>
    public static IReadOnlyList<(int Row, JsonObject Exercise)> Read(string text, ExerciseTable table, List<CellFault> faults)
    {
        using var reader = CsvReader.FromText(text, Rfc4180);
        var rows = new List<(int, JsonObject)>();
        List<ExerciseColumn>? columns = null;
        var row = 1;
        try
        {
            for (; reader.Read(); row++)
            {
                var cells = Enumerable.Range(0, reader.FieldCount).Select(reader.GetString).ToArray();
                if (row == 1)
                {
                    columns = Header(cells, table, faults);
                    if (columns is null)
                    {
                        return [];
                    }
                }
                else if (!cells.All(string.IsNullOrWhiteSpace))
                {
                    if (cells.Length == columns!.Count)
                    {
                        rows.Add((row, ReadRow(row, cells, columns, faults)));
                    }
                    else
                    {
                        faults.Add(new CellFault(row, "", $"has {cells.Length} cells, the header {columns.Count}; a comma or a quotation mark is too many or missing."));
                    }
                }
            }
        }
        catch (CsvFormatException e)
        {
            faults.Add(new CellFault(row, "", $"is no CSV: {e.Message}"));
        }

        if (columns is null && faults.Count == 0)
        {
            faults.Add(new CellFault(1, "", "the file is empty; the first row holds the names of the columns."));
        }

        return rows;
    }

    /// <summary>A cell that no spreadsheet takes for a formula: an apostrophe goes before = + - @, tab and carriage return, also behind other apostrophes.</summary>
    public static string Guarded(string cell) => Formula().IsMatch(cell) ? "'" + cell : cell;

    /// <summary>The cell before it was guarded.</summary>
    public static string Unguarded(string cell) => cell.StartsWith('\'') && Formula().IsMatch(cell) ? cell[1..] : cell;

    private static List<ExerciseColumn>? Header(string[] names, ExerciseTable table, List<CellFault> faults)
    {
        if (names is [var only] && only.Contains(';', StringComparison.Ordinal))
        {
            faults.Add(new CellFault(1, "", "columns are separated by semicolons; save the file as comma-separated CSV."));
            return null;
        }

        var columns = names.Select(n => table.Columns.FirstOrDefault(c => c.Name == n.Trim())).ToList();
        for (var i = 0; i < names.Length; i++)
        {
            if (columns[i] is not { } column)
            {
                faults.Add(new CellFault(1, names[i], "is no column of the catalogue; take the header of an export."));
            }
            else if (columns.IndexOf(column) < i)
            {
                faults.Add(new CellFault(1, names[i], "stands twice; keep one."));
            }
        }

        // A lost column is no empty one: taken as empty it would silently take a rating or a load from every exercise.
        faults.AddRange(table.Columns.Except(columns.OfType<ExerciseColumn>()).Select(c => new CellFault(1, c.Name, "is missing; every column of an export must be there, even if all its cells are empty.")));
        return faults.Count == 0 ? [.. columns.Select(c => c!)] : null;
    }

    private static JsonObject ReadRow(int row, string[] cells, List<ExerciseColumn> columns, List<CellFault> faults)
    {
        var exercise = ExerciseTable.Empty();
        for (var i = 0; i < cells.Length; i++)
        {
            var cell = Unguarded(cells[i].Trim());
            try
            {
                ExerciseTable.Put(exercise, columns[i], cell);
            }
            catch (FormatException e)
            {
                faults.Add(new CellFault(row, columns[i].Name, e.Message));
                ExerciseTable.PutText(exercise, columns[i], cell);
            }
        }

        return exercise;
    }

    [GeneratedRegex(@"\A'*[=+\-@\t\r]")]
    private static partial Regex Formula();
}
