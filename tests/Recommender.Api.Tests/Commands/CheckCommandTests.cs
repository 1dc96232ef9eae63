using System.Text;
using System.Text.Json.Nodes;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Tests.Hosting;
using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Tests.Commands;

public sealed class CheckCommandTests : IDisposable
{
    private static readonly Lazy<ExerciseCatalogue> Shipped = new(() => KnowledgeReader.Read(Repository.File("data")).Catalogue);
    private static readonly Lazy<ExerciseTable> Columns = new(() => new ExerciseTable(Shipped.Value.Vocabulary));
    private static readonly Lazy<string> Exported = new(() => Encoding.UTF8.GetString(ExerciseCsv.Write(Shipped.Value.Exercises, Columns.Value)));
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-check-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public void An_export_that_nobody_touched_has_no_error_and_changes_nothing()
    {
        var (exit, output, _) = Check("exercises.csv", Exported.Value);

        Assert.Equal($"{Shipped.Value.Count} exercises checked, no error. New: none. Changed: none.\n", output);
        Assert.Equal(0, exit);
    }

    [Fact]
    public void A_file_of_the_data_folder_has_no_error() => Assert.Equal(0, CommandRun.Of("check", Repository.File("data", "exercises", "squat.json")).Exit);

    [Fact]
    public void A_new_rating_is_named_as_a_change() =>
        Assert.Equal($"{Shipped.Value.Count} exercises checked, no error. New: none. Changed: back-squat.\n", CheckCell("back-squat", "quality.muscle-mass", "1").Output);

    [Fact]
    public void A_few_rows_are_enough_and_the_rest_stays()
    {
        var text = Encoding.UTF8.GetString(ExerciseCsv.Write(Shipped.Value.Exercises.Take(3), Columns.Value));

        Assert.Equal("3 exercises checked, no error. New: none. Changed: none.\n", Check("three.csv", text).Output);
    }

    [Theory]
    [InlineData("quality.max-strength", "very good", "is no rating")]
    [InlineData("quality.max-strength", "7 common-practice", "3")]
    [InlineData("quality.max-strength", "3 published", "source")]
    [InlineData("quality.max-strength", "3 published nobody-1999", "nobody-1999")]
    [InlineData("quality.max-strength", "3 guess", "is none of")]
    [InlineData("load.lower-back", "5.6", "interval")]
    [InlineData("load.lower-back", "5.6 (5.8-6.7) common-practice", "low <= value <= high")]
    [InlineData("load.lower-back", "9 (8-12) common-practice", "10")]
    [InlineData("load.hip", "4 (3-5) modelled", "no model speaks")]
    [InlineData("fact.kneeFlexionDeg", "deep", "not a number")]
    [InlineData("fact.kneeFlexionDeg", "110,5", "decimal point")]
    [InlineData("fact.kneeFlexionDeg", "", "not a number")]
    [InlineData("fact.footContact", "heels", "is none of")]
    [InlineData("support", "both", "is none of")]
    [InlineData("direction", "upwards", "vocabulary")]
    [InlineData("equipment", "barbel + rack", "\"barbel\" is not in the vocabulary")]
    [InlineData("equipment", "dumbbell + dumbbells", "pair")]
    [InlineData("places", "cellar", "vocabulary")]
    [InlineData("progressions", "no-such-exercise", "not in the catalogue")]
    [InlineData("perSide", "yes", "neither true nor false")]
    [InlineData("complexity", "9", "4")]
    [InlineData("cues", "One only", "2")]
    [InlineData("name", "", "string")]
    [InlineData("impactContacts", "2", "impact")]
    public void An_error_is_told_with_row_column_and_reason(string column, string cell, string reason)
    {
        var row = Shipped.Value.PositionOf("back-squat") + 2;

        var (exit, output, _) = CheckCell("back-squat", column, cell);

        Assert.Equal(1, exit);
        var line = Assert.Single(output.Split('\n'), l => l.StartsWith($"row {row} (back-squat), {column}: ", StringComparison.Ordinal));
        Assert.Contains(reason, line, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("nothing was replaced", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_that_another_exercise_has_is_told() =>
        Assert.Contains("(wall-sit), synonyms: \"back squat\" already names back-squat", CheckCell("wall-sit", "synonyms", "back squat").Output, StringComparison.Ordinal);

    [Fact]
    public void Errors_of_several_rows_are_all_told_at_once()
    {
        var rows = Rows();
        Put(rows, "back-squat", "quality.max-strength", "9 common-practice");
        Put(rows, "front-squat", "load.hip", "many");
        Put(rows, "plank-nobody-knows", "id", "x");
        Put(rows, "pull-up", "equipment", "monkey-bars");

        var (exit, output, _) = Check("exercises.csv", Join(rows));

        Assert.Equal(1, exit);
        Assert.Contains("(back-squat), quality.max-strength", output, StringComparison.Ordinal);
        Assert.Contains("(front-squat), load.hip", output, StringComparison.Ordinal);
        Assert.Contains("(pull-up), equipment", output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cycle_of_progressions_and_an_id_that_stands_twice_are_told()
    {
        var rows = Rows();
        Put(rows, "front-squat", "id", "back-squat");

        Assert.Contains("back-squat stands twice", Check("exercises.csv", Join(rows)).Output, StringComparison.Ordinal);

        rows = Rows();
        Put(rows, "back-squat", "progressions", "front-squat");
        Put(rows, "back-squat", "regressions", "front-squat");
        Put(rows, "front-squat", "progressions", "back-squat");
        Put(rows, "front-squat", "regressions", "back-squat");

        Assert.Contains("circle", Check("exercises.csv", Join(rows)).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lost_an_unknown_and_a_doubled_column_are_told_before_any_row()
    {
        var lost = Rows().Select(r => r.Where((_, i) => i != 3).ToArray()).ToList();
        var unknown = Rows();
        unknown[0][4] = "colour";
        var doubled = Rows();
        doubled[0][5] = doubled[0][6];

        Assert.Contains("row 1, pattern: is missing", Check("lost.csv", Join(lost)).Output, StringComparison.Ordinal);
        Assert.Contains("row 1, colour: is no column", Check("unknown.csv", Join(unknown)).Output, StringComparison.Ordinal);
        Assert.Contains("row 1, contraction: stands twice", Check("doubled.csv", Join(doubled)).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Columns_may_stand_in_another_order_and_empty_rows_are_passed_over()
    {
        var turned = Rows().Select(r => r.Reverse().ToArray()).ToList();
        turned.Insert(5, [.. turned[0].Select(_ => "")]);

        Assert.EndsWith("no error. New: none. Changed: none.\n", Check("turned.csv", Join(turned)).Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "row 1, the whole: the file is empty")]
    [InlineData("id;name;family", "semicolons")]
    public void A_file_that_is_no_table_is_told(string text, string word) => Assert.Contains(word, Check("x.csv", text).Output, StringComparison.Ordinal);

    [Fact]
    public void A_row_with_a_cell_too_few_and_a_quotation_mark_that_never_closes_are_told_by_row()
    {
        var rows = Rows();
        rows[2] = rows[2][..^1];
        Assert.Contains($"row 3, the whole: has {Columns.Value.Columns.Count - 1} cells", Check("few.csv", Join(rows)).Output, StringComparison.Ordinal);

        var lines = Exported.Value.Split("\r\n");
        Assert.Contains("row 2, the whole: is no CSV", Check("open.csv", $"{lines[0]}\r\n\"{lines[1]}").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_byte_order_mark_does_no_harm_and_another_encoding_is_told()
    {
        var path = Path.Combine(folder, "mark.csv");
        File.WriteAllText(path, Exported.Value, new UTF8Encoding(encoderShouldEmitUTF8Identifier: true));
        Assert.Equal(0, CommandRun.Of("check", path).Exit);

        File.WriteAllBytes(path, [.. Encoding.UTF8.GetBytes("id,name"), 0xE9, 0x0A]);
        Assert.Contains("not UTF-8", CommandRun.Of("check", path).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_is_checked_by_number_and_pointer()
    {
        var body = JsonNode.Parse(File.ReadAllText(Repository.File("data", "exercises", "squat.json")))!;
        var second = body["exercises"]![1]!;
        second["tissueLoad"]!["hip"]!["value"] = 12;
        second["colour"] = "red";

        var (exit, output, _) = Check("edited.json", body.ToJsonString());

        Assert.Equal(1, exit);
        Assert.Contains($"exercise 2 ({(string)second["id"]!}), /tissueLoad/hip/value: ", output, StringComparison.Ordinal);
        Assert.Contains($"exercise 2 ({(string)second["id"]!}), /colour: ", output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{ \"exercises\": [ { ] }", "is not JSON, line 1")]
    [InlineData("{ \"squats\": [] }", "no list of exercises")]
    [InlineData("null", "no list of exercises")]
    [InlineData("[ 3 ]", "exercise 1, the whole: is no object")]
    [InlineData("[ {} ]", "exercise 1 (), /id: an exercise has an id")]
    public void Json_that_is_no_list_of_exercises_is_told(string text, string word) => Assert.Contains(word, Check("x.json", text).Output, StringComparison.Ordinal);

    [Fact]
    public void A_file_that_is_not_there_or_not_named_is_told_and_nothing_runs()
    {
        Assert.Equal(2, CommandRun.Of("check", Path.Combine(folder, "none.csv")).Exit);
        Assert.Equal(2, CommandRun.Of("check").Exit);
        Assert.Contains("neither .csv nor .json", Check("exercises.xlsx", "").Output, StringComparison.Ordinal);
        Assert.Equal(2, CommandRun.On(Path.Combine(folder, "nowhere"), "basis").Exit);
    }

    private (int Exit, string Output, string Error) CheckCell(string id, string column, string cell)
    {
        var rows = Rows();
        Put(rows, id, column, cell);
        return Check("exercises.csv", Join(rows));
    }

    private (int Exit, string Output, string Error) Check(string name, string text)
    {
        var path = Path.Combine(folder, name);
        File.WriteAllText(path, text);
        return CommandRun.Of("check", path);
    }

    /// <summary>The export as cells; written here without the package that reads it.</summary>
    private static List<string[]> Rows()
    {
        var header = Columns.Value.Columns.Select(c => c.Name).ToArray();
        return [header, .. Shipped.Value.Exercises.Select(e =>
        {
            var node = System.Text.Json.JsonSerializer.SerializeToNode(e, Api.Hosting.ApiJson.Default.Exercise)!.AsObject();
            return Columns.Value.Columns.Select(c => ExerciseTable.CellOf(node, c)).ToArray();
        })];
    }

    private static void Put(List<string[]> rows, string id, string column, string cell)
    {
        if (rows.Find(r => r[0] == id) is { } row)
        {
            row[Array.IndexOf(rows[0], column)] = cell;
        }
    }

    private static string Join(List<string[]> rows) => string.Join("\r\n", rows.Select(r => string.Join(',', r.Select(c => $"\"{c.Replace("\"", "\"\"", StringComparison.Ordinal)}\""))));
}
