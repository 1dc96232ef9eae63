using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Answers.ExerciseFiles;

/// <summary>The exercises of an edited file, and where each of them stands in it: a table as exported, a file of data/exercises, a page of /v1/exercises, or a bare list.</summary>
public sealed class EditedFile
{
    private readonly List<string> places = [];
    private readonly List<JsonObject> rows = [];
    private readonly List<string> faults = [];
    private readonly HashSet<(int Index, string Column)> told = [];
    private ExerciseTable? table;

    private EditedFile(string name) => Name = name;

    /// <summary>Name of the file.</summary>
    public string Name { get; }

    /// <summary>Exercises, in the shape of the data files.</summary>
    public IReadOnlyList<JsonObject> Rows => rows;

    /// <summary>What could not be read, each with its place in the file.</summary>
    public IReadOnlyList<string> Faults => faults;

    /// <summary>Reads a file.</summary>
    /// <param name="name">Its name; the ending says what it is.</param>
    /// <param name="bytes">What it holds.</param>
    /// <param name="vocabulary">Gives the table's columns.</param>
    public static EditedFile Read(string name, byte[] bytes, Vocabulary vocabulary)
    {
        var edited = new EditedFile(name);
        if (Path.GetExtension(name).Equals(".csv", StringComparison.OrdinalIgnoreCase))
        {
            edited.ReadCsv(bytes, new ExerciseTable(vocabulary));
        }
        else if (Path.GetExtension(name).Equals(".json", StringComparison.OrdinalIgnoreCase))
        {
            edited.ReadJson(bytes);
        }
        else
        {
            edited.faults.Add($"{name} is neither .csv nor .json by its name.");
        }

        return edited;
    }

    /// <summary>A fault of an edit with these exercises in words of the file; null when the same cell has been told already.</summary>
    /// <param name="fault">Its pointer is /upsert, the place among <see cref="Rows"/>, and what follows in the exercise; any other is told as it is.</param>
    public string? Told(Fault fault)
    {
        var parts = fault.Pointer.Split('/', 4);
        return parts.Length > 2 && parts[1] == "upsert" && int.TryParse(parts[2], out var index) && index < rows.Count ? Told(index, parts.Length > 3 ? "/" + parts[3] : "", fault.Message) : fault.Message;
    }

    /// <summary>A fault of one of its exercises in words of the file; null when the same cell has been told already.</summary>
    /// <param name="index">Place of the exercise among <see cref="Rows"/>.</param>
    /// <param name="below">JSON Pointer below the exercise; empty for the whole.</param>
    /// <param name="reason">What is wrong.</param>
    public string? Told(int index, string below, string reason)
    {
        var column = table?.ColumnOf(below) ?? below;
        return told.Contains((index, column)) ? null : $"{places[index]}, {(column.Length == 0 ? "the whole" : column)}: {reason}";
    }

    private void ReadCsv(byte[] bytes, ExerciseTable columns)
    {
        table = columns;
        string text;
        try
        {
            text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            faults.Add($"{Name} is not UTF-8; save it as \"CSV UTF-8\".");
            return;
        }

        var cells = new List<CellFault>();
        var read = ExerciseCsv.Read(text, columns, cells);
        foreach (var (row, exercise) in read)
        {
            rows.Add(exercise);
            places.Add($"row {row} ({(string?)exercise["id"]})");
        }

        foreach (var cell in cells)
        {
            var index = read.ToList().FindIndex(r => r.Row == cell.Row);
            told.Add((index, cell.Column));
            faults.Add($"{(index < 0 ? $"row {cell.Row}" : places[index])}, {(cell.Column.Length == 0 ? "the whole" : cell.Column)}: {cell.Reason}");
        }
    }

    private void ReadJson(byte[] bytes)
    {
        JsonNode? body;
        try
        {
            body = JsonNode.Parse(bytes, documentOptions: new JsonDocumentOptions { AllowDuplicateProperties = false, MaxDepth = 32 });
        }
        catch (JsonException e)
        {
            faults.Add($"{Name} is not JSON, line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: {e.Message}");
            return;
        }

        var list = body as JsonArray ?? (body as JsonObject)?["exercises"] as JsonArray ?? (body as JsonObject)?["items"] as JsonArray;
        if (list is null)
        {
            faults.Add($"{Name} holds no list of exercises; give {{ \"exercises\": [ … ] }}, a page of /v1/exercises or a bare list.");
            return;
        }

        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] is JsonObject exercise)
            {
                // What the rules add when an edition is read goes out again; the files never hold it.
                exercise.Remove("loadingsPerUnit");
                rows.Add(exercise);
                places.Add($"exercise {i + 1} ({(exercise["id"] as JsonValue)?.ToString()})");
            }
            else
            {
                faults.Add($"exercise {i + 1}, the whole: is no object.");
            }
        }
    }
}
