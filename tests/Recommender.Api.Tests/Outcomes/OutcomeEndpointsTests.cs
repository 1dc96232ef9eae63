using System.Net;
using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Outcomes;

/// <summary>Over real HTTP: what was done with a pick, what is wrong with a report, and what it does to the next answer.</summary>
public sealed class OutcomeEndpointsTests : IAsyncDisposable
{
    private const string Nowhere = "/v1/decisions/00000000-0000-7000-8000-000000000000/outcomes";
    private readonly ApiHost api = new();

    [Fact]
    public async Task A_report_is_kept_once_under_its_key_and_listed()
    {
        var (path, pick) = await Ask();
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        var body = $$"""{ "exercise": "{{pick}}", "verdict": "used", "painDuring": 1, "note": "<img src=x>" }""";
        using var first = await api.Post(path, body, key);
        using var again = await api.Post(path, body, key);
        using var other = await api.Post(path, body.Replace("\"used\"", "\"declined\"", StringComparison.Ordinal), key);

        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created, HttpStatusCode.Conflict), (first.StatusCode, again.StatusCode, other.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        var items = (await api.Get(path))["items"]!.AsArray();
        Assert.Equal("<img src=x>", (string?)items.Single()!["note"]);

        // What is kept under the key names the decision, and is not its answer.
        Assert.True((bool)(await api.Answer("/v1/decisions/verify", "{}"))["intact"]!);
    }

    [Fact]
    public async Task Every_fault_of_a_report_is_told_with_its_pointer()
    {
        var (path, _) = await Ask();
        using var response = await api.Post(path, """{ "exercise": "depth-jump", "verdict": "loved", "painDuring": 11, "effort": -1 }""");

        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        var errors = JsonNode.Parse(await response.Content.ReadAsStringAsync())!["errors"]!.AsArray();
        Assert.Equal(["/effort", "/exercise", "/painDuring", "/verdict"], errors.Select(e => (string)e!["pointer"]!).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(Nowhere, """{ "exercise": "x", "verdict": "used" }""", 404)]
    [InlineData(null, """{ "exercise": "x", "verdict": "used", "colour": "red" }""", 400)]
    [InlineData(null, """{ "exercise": "x", "verdict": "used", "painDuring": 1.5 }""", 400)]
    public async Task What_cannot_be_taken_is_told(string? path, string body, int status)
    {
        using var response = await api.Post(path ?? (await Ask()).Path, body);

        Assert.Equal(status, (int)response.StatusCode);
    }

    [Fact]
    public async Task Erasing_the_athlete_takes_what_was_told_of_them_and_nothing_more_is_taken()
    {
        var (path, pick) = await Ask();
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        using var reported = await api.Post(path, $$"""{ "exercise": "{{pick}}", "verdict": "used", "painDuring": 9, "note": "unmistakable" }""", key);
        using var erased = await api.Client.DeleteAsync("/v1/athletes/NM-04");
        Assert.Equal(HttpStatusCode.NoContent, erased.StatusCode);

        Assert.DoesNotContain("unmistakable", (await api.Get(path)).ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(0, api.Sql("SELECT count(*) FROM outcomes WHERE report LIKE '%unmistakable%' OR athlete_ref IS NOT NULL"));
        Assert.Equal(0, api.Sql("SELECT count(*) FROM idempotency WHERE key = '" + key.Item2 + "'"));
        using var more = await api.Post(path, $$"""{ "exercise": "{{pick}}", "verdict": "declined" }""");
        Assert.Equal(HttpStatusCode.Conflict, more.StatusCode);
        Assert.Equal("state-forbids", ((string)JsonNode.Parse(await more.Content.ReadAsStringAsync())!["type"]!).Split('/')[^1]);
    }

    [Fact]
    public async Task A_report_beside_the_erasure_leaves_nothing_told_under_its_key_either()
    {
        for (var round = 0; round < 20; round++)
        {
            var (path, pick) = await Ask();
            var key = ("Idempotency-Key", Guid.NewGuid().ToString());
            var body = $$"""{ "exercise": "{{pick}}", "verdict": "used", "painDuring": 9, "note": "unmistakable" }""";

            var reporting = api.Post(path, body, key);
            await Task.Delay(round % 5);
            using var erased = await api.Client.DeleteAsync("/v1/athletes/NM-04");
            using var reported = await reporting;

            Assert.Equal(HttpStatusCode.NoContent, erased.StatusCode);
            Assert.Contains(reported.StatusCode, new[] { HttpStatusCode.Created, HttpStatusCode.Conflict });
            using var again = await api.Post(path, body, key);
            Assert.Equal(HttpStatusCode.Conflict, again.StatusCode);
        }

        Assert.Equal(0, api.Sql("SELECT count(*) FROM outcomes WHERE report LIKE '%unmistakable%' OR athlete_ref IS NOT NULL"));
        Assert.Equal(0, api.Sql("SELECT count(*) FROM idempotency_athletes"));
    }

    [Fact]
    public async Task Pain_after_work_stands_in_the_next_answer_and_in_its_record()
    {
        var (path, pick) = await Ask();
        await api.Post(path, $$"""{ "exercise": "{{pick}}", "verdict": "used", "painDuring": 9 }""");

        var next = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));

        Assert.DoesNotContain(next["picks"]!.AsArray(), p => (string)p!["exercise"]!["id"]! == pick);
        Assert.Contains(next["cautions"]!.AsArray(), c => ((string)c!).Contains("reported today: pain rose from 3 to 9", StringComparison.Ordinal));
        var record = await api.Get($"/v1/decisions/{(string)next["decisionId"]!}");
        Assert.Equal(pick, (string)record["facts"]!["cautions"]![0]!["exercise"]!);
        Assert.NotNull(record["hashed"]!["factsHash"]);
        Assert.True((bool)(await api.Answer($"/v1/decisions/{(string)next["decisionId"]!}/replay", "{}"))["identical"]!);
        Assert.True((bool)(await api.Answer("/v1/decisions/verify", "{}"))["intact"]!);
    }

    [Fact]
    public async Task Nothing_is_learned_yet_and_an_unknown_version_is_told()
    {
        Assert.Empty((await api.Get("/v1/preferences"))["items"]!.AsArray());
        using var content = new StringContent("""{ "version": "0123456789abcdef0123456789abcdef" }""", System.Text.Encoding.UTF8, "application/json");
        using var response = await api.Client.PutAsync("/v1/preferences/current", content);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
    }

    public ValueTask DisposeAsync() => api.DisposeAsync();

    private async Task<(string Path, string Pick)> Ask()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));
        return ($"/v1/decisions/{(string)answer["decisionId"]!}/outcomes", (string)answer["picks"]![0]!["exercise"]!["id"]!);
    }
}
