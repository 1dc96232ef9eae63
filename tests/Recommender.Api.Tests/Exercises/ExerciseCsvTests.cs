using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Hosting;
using Recommender.Api.Tests.Hosting;
using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Tests.Exercises;

[Collection(SharedApi.Name)]
public sealed class ExerciseCsvTests(ApiHost api)
{
    private static readonly Lazy<ExerciseCatalogue> Shipped = new(() => KnowledgeReader.Read(Repository.File("data")).Catalogue);

    [Fact]
    public async Task Accept_csv_gives_the_whole_catalogue_as_a_file()
    {
        using var response = await Get("/v1/exercises", "text/csv");

        Assert.Equal("text/csv; charset=utf-8; header=present", response.Content.Headers.ContentType!.ToString());
        Assert.Equal("attachment; filename=\"exercises.csv\"", response.Content.Headers.ContentDisposition!.ToString());
        Assert.Contains("Accept", response.Headers.Vary);
        var lines = (await response.Content.ReadAsStringAsync()).Split("\r\n");
        Assert.StartsWith("id,name,family,pattern,", lines[0], StringComparison.Ordinal);
        Assert.Equal(Shipped.Value.Exercises.Select(e => e.Id), lines[1..^1].Select(l => l[..l.IndexOf(',', StringComparison.Ordinal)]));
    }

    [Theory]
    [InlineData("text/csv", true)]
    [InlineData("text/csv, */*", true)]
    [InlineData("application/json;q=0.5, text/csv", true)]
    [InlineData("text/*", true)]
    [InlineData("text/csv;q=0.4, application/json", false)]
    [InlineData("text/csv, application/json", false)]
    [InlineData("text/csv;q=0, */*", false)]
    [InlineData("*/*", false)]
    [InlineData("application/json", false)]
    [InlineData("text/html,application/xhtml+xml,*/*;q=0.8", false)]
    [InlineData(null, false)]
    [InlineData("nonsense", false)]
    public async Task The_format_is_the_one_that_is_wished_for_more(string? accept, bool csv)
    {
        using var response = await Get("/v1/exercises?limit=1", accept);

        Assert.Equal(csv ? "text/csv" : "application/json", response.Content.Headers.ContentType!.MediaType);
        Assert.Contains("Accept", response.Headers.Vary);
    }

    [Fact]
    public async Task Filters_hold_for_the_table_and_with_a_limit_link_names_the_next_page()
    {
        using var first = await Get("/v1/exercises?pattern=hinge&limit=2", "text/csv");
        var next = Assert.Single(first.Headers.GetValues("Link"));

        Assert.EndsWith(">; rel=\"next\"", next, StringComparison.Ordinal);
        using var second = await Get(next[1..next.IndexOf('>', StringComparison.Ordinal)], "text/csv");
        var ids = new[] { first, second }.SelectMany(r => r.Content.ReadAsStringAsync().Result.Split("\r\n")[1..^1]).Select(l => l[..l.IndexOf(',', StringComparison.Ordinal)]);
        Assert.Equal(Shipped.Value.Exercises.Where(e => e.Pattern == "hinge").Take(4).Select(e => e.Id), ids);
    }

    [Fact]
    public async Task A_query_that_cannot_be_used_is_refused_as_for_json()
    {
        using var response = await Get("/v1/exercises?quality=strength", "text/csv");

        await ProblemAssert.Is(response, 400, "malformed-request", "?quality", "unknown-id");
    }

    [Fact]
    public void A_table_read_back_is_the_same_catalogue()
    {
        var table = new ExerciseTable(Shipped.Value.Vocabulary);
        var faults = new List<CellFault>();

        var read = ExerciseCsv.Read(Encoding.UTF8.GetString(ExerciseCsv.Write(Shipped.Value.Exercises, table)), table, faults);

        Assert.Empty(faults);
        Assert.Equal(Shipped.Value.Count, read.Count);
        Assert.All(read.Zip(Shipped.Value.Exercises), pair =>
        {
            var (row, exercise) = pair;
            var written = JsonSerializer.SerializeToNode(exercise, ApiJson.Default.Exercise)!.AsObject();
            written.Remove("loadingsPerUnit");
            Assert.True(JsonNode.DeepEquals(written, row.Exercise), exercise.Id);
        });
    }

    [Theory]
    [InlineData("=HYPERLINK(\"http://example.org\")", "'=HYPERLINK(\"http://example.org\")")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@SUM(A1)", "'@SUM(A1)")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\rx", "'\rx")]
    [InlineData("'=x", "''=x")]
    [InlineData("'tis", "'tis")]
    [InlineData("a=b", "a=b")]
    [InlineData("", "")]
    public void A_formula_is_guarded_and_comes_back(string cell, string guarded)
    {
        Assert.Equal(guarded, ExerciseCsv.Guarded(cell));
        Assert.Equal(cell, ExerciseCsv.Unguarded(guarded));
    }

    [Theory]
    [InlineData("=1+1")]
    [InlineData("@home squat")]
    [InlineData("-squat, \"deep\" | wide \\ low")]
    [InlineData("'=quoted")]
    [InlineData("+one\\|two")]
    public void Hostile_and_awkward_text_stands_guarded_in_the_file_and_comes_back_as_it_was(string text)
    {
        var table = new ExerciseTable(Shipped.Value.Vocabulary);
        var hostile = Shipped.Value.Exercises[0] with { Name = text, Synonyms = [text, "plain", text + "!"], HowTo = text };
        var faults = new List<CellFault>();

        var csv = Encoding.UTF8.GetString(ExerciseCsv.Write([hostile], table));
        var (_, back) = Assert.Single(ExerciseCsv.Read(csv, table, faults));

        Assert.Empty(faults);
        Assert.DoesNotMatch(@"(^|,|\n)""?[=+\-@]", csv);
        Assert.Equal(text, (string)back["name"]!);
        Assert.Equal([text, "plain", text + "!"], back["synonyms"]!.AsArray().Select(s => (string)s!));
        Assert.Equal(text, (string)back["howTo"]!);
    }

    [Fact]
    public void No_cell_of_the_catalogue_could_be_run_as_a_formula() =>
        Assert.DoesNotMatch(@"(^|,|\n)""?[=+\-@\t]", Encoding.UTF8.GetString(ExerciseCsv.Write(Shipped.Value.Exercises, new ExerciseTable(Shipped.Value.Vocabulary))));

    [Fact]
    public async Task The_document_describes_the_table()
    {
        var document = await ServedDocument.Of(api);
        var table = document.Root["paths"]!["/v1/exercises"]!["get"]!["responses"]!["200"]!["content"]!["text/csv"]!;

        Assert.Equal("#/components/schemas/ExerciseTable", (string)table["schema"]!["$ref"]!);
        var example = (string)table["examples"]!.AsObject().Single().Value!["value"]!;
        var written = Encoding.UTF8.GetString(ExerciseCsv.Write([Shipped.Value.Find("goblet-squat")!], new ExerciseTable(Shipped.Value.Vocabulary))).Split("\r\n");
        var shown = example.Split("\r\n");
        Assert.StartsWith(shown[0], written[0], StringComparison.Ordinal);
        Assert.StartsWith(shown[1], written[1], StringComparison.Ordinal);
    }

    private async Task<HttpResponseMessage> Get(string path, string? accept)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (accept is not null)
        {
            request.Headers.TryAddWithoutValidation("Accept", accept);
        }

        return await api.Client.SendAsync(request);
    }
}
