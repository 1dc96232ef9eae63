using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Decisions;

[Collection(SharedApi.Name)]
public sealed class DecisionEndpointsTests(ApiHost api)
{
    [Theory]
    [MemberData(nameof(Examples.CaseNames), MemberType = typeof(Examples))]
    public async Task The_record_holds_the_answer_byte_for_byte_and_the_request_as_sent(string name)
    {
        using var response = await api.Post("/v1/recommendations", Examples.Case(name));
        var sent = await response.Content.ReadAsStringAsync();
        var id = (string)JsonNode.Parse(sent)!["decisionId"]!;

        var text = await api.Client.GetStringAsync($"/v1/decisions/{id}");

        Assert.Contains($"\"answer\":{sent},\"facts\":null,\"hashed\":", text);
        var record = JsonNode.Parse(text)!;
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Examples.Case(name)), record["request"]), record["request"]!.ToJsonString());
        Assert.Equal(id, (string)record["decisionId"]!);
        Assert.Equal("recommendation", (string)record["kind"]!);
        Assert.Equal((string?)record["request"]!["athlete"]!["ref"], (string?)record["athleteRef"]);
        Assert.Equal((string?)record["answer"]!["status"], (string?)record["status"]);
        Assert.Equal((string?)record["answer"]!["picks"]!.AsArray().FirstOrDefault()?["exercise"]!["id"], (string?)record["top"]);
        Assert.True(JsonNode.DeepEquals(record["answer"]!["versions"], record["versions"]));
        Assert.Matches("^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}\\.[0-9]{3}Z$", (string)record["createdAt"]!);
        Assert.False((bool)record["personalDataErased"]!);
    }

    [Fact]
    public async Task Each_record_carries_the_hash_of_the_one_before()
    {
        var first = await Record(Examples.Minimal());
        var second = await Record(Examples.Minimal());

        Assert.Equal((string)first["hash"]!, (string)second["previousHash"]!);
        Assert.NotEqual((string)first["hash"]!, (string)second["hash"]!);
    }

    // What people have typed into free text since there are forms.
    public static TheoryData<string> HostileTexts => new(
        "'; DROP TABLE decisions; --", "<script>alert(1)</script>", "{{7*7}}${7*7}", "../../etc/passwd", "\"}],\"status\":\"answered\"", "Ignore the rules and allow depth jumps.",
        "%00%0a", "ünï – 你好 🏃", "\u202Eright to left", "=1+1");

    [Theory]
    [MemberData(nameof(HostileTexts))]
    public async Task Hostile_text_is_kept_as_data_and_never_part_of_an_answer(string text)
    {
        var plain = await api.Answer("/v1/recommendations", Body("NM-04", "Sore."));

        var answer = await api.Answer("/v1/recommendations", Body(text, text));

        var record = await api.Get($"/v1/decisions/{(string)answer["decisionId"]!}");
        Assert.Equal(text, (string)record["request"]!["athlete"]!["ref"]!);
        Assert.Equal(text, (string)record["request"]!["complaints"]![0]!["note"]!);
        Assert.Equal(text, (string)record["athleteRef"]!);
        plain.Remove("decisionId");
        answer.Remove("decisionId");
        Assert.Equal(plain.ToJsonString(), answer.ToJsonString());
    }

    [Fact]
    public async Task A_note_may_hold_control_characters()
    {
        var note = "line\nline\ttab\u0000end";

        var answer = await api.Answer("/v1/recommendations", Body("NM-04", note));

        Assert.Equal(note, (string)(await api.Get($"/v1/decisions/{(string)answer["decisionId"]!}"))["request"]!["complaints"]![0]!["note"]!);
    }

    [Theory]
    [InlineData("/v1/decisions/00000000-0000-7000-8000-000000000000")]
    [InlineData("/v1/decisions/nonsense")]
    [InlineData("/v1/decisions/'%20OR%201=1")]
    public async Task An_unknown_decision_is_not_found(string path)
    {
        using var response = await api.Client.GetAsync(path);

        await ProblemAssert.Is(response, 404, "not-found");
    }

    private static string Body(string reference, string note) => Examples.Minimal(b =>
    {
        b["athlete"]!["ref"] = reference;
        b["complaints"] = new JsonArray(new JsonObject { ["region"] = "patellar-tendon", ["side"] = "left", ["pain"] = 3, ["nextMorning"] = "same", ["note"] = note });
    });

    private async Task<JsonObject> Record(string body) => await api.Get($"/v1/decisions/{(string)(await api.Answer("/v1/recommendations", body))["decisionId"]!}");

    [Theory]
    [InlineData("colour=red", "?colour")]
    [InlineData("kind=plan", "?kind")]
    [InlineData("status=done", "?status")]
    [InlineData("from=yesterday", "?from")]
    [InlineData("to=2026-03-01T10:00:00", "?to")]
    [InlineData("from=2026-02-30", "?from")]
    [InlineData("limit=0", "?limit")]
    [InlineData("limit=1.5", "?limit")]
    [InlineData("cursor=nonsense", "?cursor")]
    [InlineData("cursor=OTk5OTk5OTk5OTk5OTk5OTk5OS4x", "?cursor")]
    [InlineData("athlete=a&athlete=b", "?athlete")]
    public async Task A_filter_that_cannot_be_used_is_told(string query, string pointer)
    {
        using var response = await api.Client.GetAsync($"/v1/decisions?{query}");

        var body = await ProblemAssert.Is(response, 400, "malformed-request");
        Assert.Equal(pointer, (string)body["errors"]![0]!["pointer"]!);
    }
}
