using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Api.Exercises;
using Recommender.Api.Hosting;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Commands;

/// <summary>Checks an edited CSV or JSON file of exercises together with the rest of the knowledge, and tells every error before anything is replaced.</summary>
public static class CheckCommand
{
    /// <summary>Checks a file and prints what is wrong, or what would change. Nothing is replaced.</summary>
    /// <param name="path">A table as exported, a file of data/exercises, a page of /v1/exercises, or a bare list of exercises.</param>
    /// <param name="folder">The data folder that it is checked with; exercises that the file does not hold stay as they are.</param>
    /// <param name="output">Takes the report.</param>
    /// <returns>0 without an error, else 1.</returns>
    public static int Run(string path, string folder, TextWriter output)
    {
        var inForce = KnowledgeReader.Read(folder);
        var faults = new List<string>();
        var edited = Edited.Read(path, inForce.Catalogue.Vocabulary, faults);
        Edition? checkedEdition = null;
        try
        {
            checkedEdition = KnowledgeReader.ReadWith(folder, new EditedExercises(Path.GetFileName(path), edited.Rows));
        }
        catch (InvalidKnowledgeException e)
        {
            faults.AddRange(e.Faults.Select(edited.Told).OfType<string>());
        }

        foreach (var fault in faults)
        {
            output.WriteLine(fault);
        }

        if (faults.Count > 0)
        {
            output.WriteLine($"{faults.Count} error{(faults.Count == 1 ? "" : "s")} in {edited.Rows.Count} exercises; nothing was replaced.");
            return 1;
        }

        Changes(inForce.Catalogue, checkedEdition!.Catalogue, edited.Rows.Count, output);
        return 0;
    }

    private static void Changes(ExerciseCatalogue before, ExerciseCatalogue after, int rows, TextWriter output)
    {
        var added = after.Exercises.Where(e => before.Find(e.Id) is null).Select(e => e.Id).ToList();
        var changed = after.Exercises.Where(e => before.Find(e.Id) is { } was && !Same(was, e)).Select(e => e.Id).ToList();
        output.WriteLine($"{rows} exercises checked, no error. New: {Named(added)}. Changed: {Named(changed)}.");
    }

    private static bool Same(Exercise a, Exercise b) =>
        JsonNode.DeepEquals(JsonSerializer.SerializeToNode(a, ApiJson.Default.Exercise), JsonSerializer.SerializeToNode(b, ApiJson.Default.Exercise));

    private static string Named(List<string> ids) => ids.Count == 0 ? "none" : string.Join(", ", ids);

    /// <summary>The exercises of an edited file, and where each of them stands in it.</summary>
    private sealed class Edited
    {
        private readonly string file;
        private readonly List<string> places = [];
        private readonly HashSet<(int Index, string Column)> told = [];
        private ExerciseTable? table;

        private Edited(string file) => this.file = file;

        public List<JsonObject> Rows { get; } = [];

        public static Edited Read(string path, Domain.Catalogue.Vocabulary vocabulary, List<string> faults)
        {
            var edited = new Edited(Path.GetFileName(path));
            var bytes = File.ReadAllBytes(path);
            if (Path.GetExtension(path).Equals(".csv", StringComparison.OrdinalIgnoreCase))
            {
                edited.ReadCsv(bytes, new ExerciseTable(vocabulary), faults);
            }
            else if (Path.GetExtension(path).Equals(".json", StringComparison.OrdinalIgnoreCase))
            {
                edited.ReadJson(bytes, faults);
            }
            else
            {
                faults.Add($"{edited.file} is neither .csv nor .json by its name.");
            }

            return edited;
        }

        /// <summary>A fault of the knowledge in words of the file; null when the same cell has been told already.</summary>
        public string? Told(KnowledgeFault fault)
        {
            var parts = fault.Pointer.Split('/', 3);
            if (fault.File != file || parts.Length < 2 || !int.TryParse(parts[1], out var index))
            {
                return fault.ToString();
            }

            var below = parts.Length > 2 ? "/" + parts[2] : "";
            var column = table?.ColumnOf(below) ?? below;
            return told.Contains((index, column)) ? null : $"{places[index]}, {(column.Length == 0 ? "the whole" : column)}: {fault.Reason}";
        }

        private void ReadCsv(byte[] bytes, ExerciseTable columns, List<string> faults)
        {
            table = columns;
            string text;
            try
            {
                text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes).TrimStart('\uFEFF');
            }
            catch (DecoderFallbackException)
            {
                faults.Add($"{file} is not UTF-8; save it as \"CSV UTF-8\".");
                return;
            }

            var cells = new List<CellFault>();
            var read = ExerciseCsv.Read(text, columns, cells);
            foreach (var (row, exercise) in read)
            {
                Rows.Add(exercise);
                places.Add($"row {row} ({(string?)exercise["id"]})");
            }

            foreach (var cell in cells)
            {
                var index = read.ToList().FindIndex(r => r.Row == cell.Row);
                told.Add((index, cell.Column));
                faults.Add($"{(index < 0 ? $"row {cell.Row}" : places[index])}, {(cell.Column.Length == 0 ? "the whole" : cell.Column)}: {cell.Reason}");
            }
        }

        private void ReadJson(byte[] bytes, List<string> faults)
        {
            JsonNode? body;
            try
            {
                body = JsonNode.Parse(bytes, documentOptions: new JsonDocumentOptions { AllowDuplicateProperties = false, MaxDepth = 32 });
            }
            catch (JsonException e)
            {
                faults.Add($"{file} is not JSON, line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: {e.Message}");
                return;
            }

            var list = body as JsonArray ?? (body as JsonObject)?["exercises"] as JsonArray ?? (body as JsonObject)?["items"] as JsonArray;
            if (list is null)
            {
                faults.Add($"{file} holds no list of exercises; give {{ \"exercises\": [ … ] }}, a page of /v1/exercises or a bare list.");
                return;
            }

            for (var i = 0; i < list.Count; i++)
            {
                if (list[i] is JsonObject exercise)
                {
                    // What the rules add when an edition is read goes out again; the files never hold it.
                    exercise.Remove("loadingsPerUnit");
                    Rows.Add(exercise);
                    places.Add($"exercise {i + 1} ({(exercise["id"] as JsonValue)?.ToString()})");
                }
                else
                {
                    faults.Add($"exercise {i + 1}, the whole: is no object.");
                }
            }
        }
    }
}
