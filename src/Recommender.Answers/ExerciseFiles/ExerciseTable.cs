using System.Text.Json.Nodes;
using Recommender.Domain.Catalogue;

namespace Recommender.Answers.ExerciseFiles;

/// <summary>One column of the catalogue as a table.</summary>
/// <param name="Name">Header.</param>
/// <param name="Path">Where the value stands in an exercise: one or two property names.</param>
/// <param name="Cell">How it is written and read.</param>
public sealed record ExerciseColumn(string Name, IReadOnlyList<string> Path, ExerciseCell Cell);

/// <summary>
/// The catalogue as a table for spreadsheets: one row an exercise, one column a field, a fact, a quality and a region. It holds everything that
/// the data files hold, so that a table can be checked and taken back; what the rules add (loadingsPerUnit) is not in it.
/// </summary>
public sealed class ExerciseTable
{
    private static readonly string[] FactsInWords = ["footContact", "contactTime", "speed", "noise"];
    private static readonly string[] Facts =
    [
        "bodyweightShare", "externalLoadShare", "kneeFlexionDeg", "hipFlexionDeg", "ankleDorsiflexionDeg", "trunkLeanDeg", "shankLeanDeg", "footContact",
        "dropHeightCm", "jumpHeightCm", "contactTime", "speed", "spaceMetres", "noise",
    ];

    private readonly Dictionary<string, ExerciseColumn> byPath;

    /// <param name="vocabulary">Gives the qualities and regions; a region that only stands for others has no column.</param>
    public ExerciseTable(Domain.Catalogue.Vocabulary vocabulary)
    {
        Columns =
        [
            .. Fields(ExerciseCell.Text, "id", "name", "family", "pattern", "support", "direction", "contraction", "loadBand", "loadingRate"),
            .. Fields(ExerciseCell.Sets, "equipment"),
            .. Fields(ExerciseCell.Texts, "places", "competences"),
            .. Fields(ExerciseCell.Number, "complexity", "sorenessRisk", "setUpMinutes", "secondsPerRepetition"),
            .. Fields(ExerciseCell.Text, "doseUnit"),
            .. Fields(ExerciseCell.Flag, "perSide"),
            .. Fields(ExerciseCell.Number, "impactContacts"),
            .. Fields(ExerciseCell.Texts, "progressions", "regressions", "synonyms"),
            .. Fields(ExerciseCell.Text, "howTo"),
            .. Fields(ExerciseCell.Texts, "cues", "faults", "cautions"),
            .. Fields(ExerciseCell.Text, "factsBasis"),
            .. Facts.Select(f => new ExerciseColumn($"fact.{f}", ["facts", f], FactsInWords.Contains(f) ? ExerciseCell.Text : ExerciseCell.Number)),
            .. vocabulary.Qualities.Select(q => new ExerciseColumn($"quality.{q.Id}", ["qualities", q.Id], ExerciseCell.Rating)),
            .. vocabulary.Regions.Where(r => r.IsPart()).Select(r => new ExerciseColumn($"load.{r.Id}", ["tissueLoad", r.Id], ExerciseCell.Load)),
        ];
        byPath = Columns.ToDictionary(c => string.Join('/', c.Path), StringComparer.Ordinal);
    }

    /// <summary>Columns in the order in which they are written; they may be read in any order.</summary>
    public IReadOnlyList<ExerciseColumn> Columns { get; }

    /// <summary>The cell of a column in an exercise.</summary>
    public static string CellOf(JsonObject exercise, ExerciseColumn column)
    {
        var node = column.Path.Aggregate((JsonNode?)exercise, (at, name) => at?[name]);
        return column.Cell.Write(node);
    }

    /// <summary>An exercise without anything in it.</summary>
    public static JsonObject Empty() => new() { ["facts"] = new JsonObject(), ["qualities"] = new JsonObject(), ["tissueLoad"] = new JsonObject() };

    /// <summary>Puts a cell's value into an exercise.</summary>
    /// <exception cref="FormatException">The text is no such value; says what would be.</exception>
    public static void Put(JsonObject exercise, ExerciseColumn column, string text)
    {
        var into = column.Path.Count == 1 ? exercise : exercise[column.Path[0]]!.AsObject();
        if (column.Cell.Read(text) is { } value)
        {
            into[column.Path[^1]] = value;
        }
    }

    /// <summary>Leaves a cell that cannot be read as its text, so that what is wrong stays at its place.</summary>
    public static void PutText(JsonObject exercise, ExerciseColumn column, string text)
    {
        var into = column.Path.Count == 1 ? exercise : exercise[column.Path[0]]!.AsObject();
        into[column.Path[^1]] = text;
    }

    /// <summary>Name of the column that a pointer below an exercise falls into; the pointer itself when it falls into none.</summary>
    /// <param name="pointer">JSON Pointer below the exercise, such as /qualities/grip/value.</param>
    public string ColumnOf(string pointer)
    {
        var parts = pointer.Split('/', StringSplitOptions.RemoveEmptyEntries);
        return parts.Length > 1 && byPath.TryGetValue($"{parts[0]}/{parts[1]}", out var inner) ? inner.Name
            : parts.Length > 0 && byPath.TryGetValue(parts[0], out var outer) ? outer.Name
            : pointer.TrimStart('/');
    }

    private static IEnumerable<ExerciseColumn> Fields(ExerciseCell cell, params string[] names) => names.Select(n => new ExerciseColumn(n, [n], cell));
}
