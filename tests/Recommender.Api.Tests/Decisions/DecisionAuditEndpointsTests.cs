using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Decisions;

/// <summary>Over real HTTP: what was asked weeks ago is asked again, and every answer keeps the served document.</summary>
[Collection(SharedApi.Name)]
public sealed class DecisionAuditEndpointsTests(ApiHost api)
{
    private const string Unknown = "/v1/decisions/00000000-0000-7000-8000-000000000000";

    public static TheoryData<string, string> Kinds => new()
    {
        { "/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon") },
        { "/v1/substitutions", Examples.Text("substitute.request.a-squat-in-a-hotel.json") },
        { "/v1/sessions", Examples.Text("composeSession.request.a-jumper-with-half-an-hour.json") },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_comparison_has_the_points_of_the_record_and_its_parts_add_up(string path, string body)
    {
        var (record, picks) = await Ask(path, body);
        var (first, second) = (picks[0], picks[1]);

        var told = await Told(record, $"comparison?first={Id(first)}&second={Id(second)}", "ComparisonAnswer");

        Assert.Equal((Id(first), Id(second)), ((string)told["first"]!, (string)told["second"]!));
        Assert.Equal((decimal)first["score"]! - (decimal)second["score"]!, (decimal)told["difference"]!);
        Assert.Equal((decimal)told["difference"]!, told["factors"]!.AsArray().Sum(f => (decimal)f!["difference"]!));
        Assert.Equal(first["contributions"]!.AsArray().Select(c => ((string)c!["factor"]!, (decimal)c["points"]!)), told["factors"]!.AsArray().Select(f => ((string)f!["factor"]!, (decimal)f["first"]!)));
        Assert.Equal(Id(first), (string)told["above"]!);
        Assert.EndsWith(".", (string)told["sentence"]!);
        Assert.Equal("picked", (string)told["standings"]!["second"]!["place"]!);
    }

    [Fact]
    public async Task What_a_gate_refused_is_compared_with_its_refusal()
    {
        var (record, picks) = await Ask("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));

        var told = await Told(record, $"comparison?first={Id(picks[0])}&second=depth-jump", "ComparisonAnswer");

        Assert.Equal("gates", (string)told["decidedBy"]!);
        Assert.Equal("left-out", (string)told["standings"]!["second"]!["place"]!);
        Assert.NotEmpty(told["standings"]!["second"]!["refusals"]!.AsArray());
        Assert.Empty(told["deciding"]!.AsArray());
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Counterfactuals_are_told_or_it_is_said_why_there_are_none(string path, string body)
    {
        var (record, picks) = await Ask(path, body);
        foreach (var exercise in new[] { Id(picks[0]), Id(picks[1]), "depth-jump" })
        {
            var told = await Told(record, $"counterfactuals?exercise={exercise}", "CounterfactualsAnswer");

            Assert.Equal(exercise, (string)told["exercise"]!);
            Assert.True(told["counterfactuals"]!.AsArray().Count > 0 || (string?)told["none"] is not null);
            Assert.All(told["counterfactuals"]!.AsArray(), c => Assert.InRange(c!["changes"]!.AsArray().Count, 1, 2));
            Assert.All(told["counterfactuals"]!.AsArray().SelectMany(c => c!["changes"]!.AsArray()), c => Assert.StartsWith(path == "/v1/recommendations" ? "/" : "/context/", (string)c!["pointer"]!));
        }
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task Sensitivity_is_the_same_each_time(string path, string body)
    {
        var (record, picks) = await Ask(path, body);

        var told = await Told(record, "sensitivity", "SensitivityAnswer");
        var again = await Told(record, "sensitivity", "SensitivityAnswer");

        Assert.Equal(told.ToJsonString(), again.ToJsonString());
        Assert.Equal(Id(picks[0]), (string)told["first"]!);
        Assert.InRange((decimal)told["firstPlaceShare"]!, 0, 1);
        Assert.Equal(1000, (int)told["samples"]!);
        Assert.True((int)told["varied"]!["commonPractice"]! > 100);
    }

    [Fact]
    public async Task A_decision_without_picks_says_so()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b => b["redFlags"] = new JsonArray("chest-pain")));
        var record = $"/v1/decisions/{(string)answer["decisionId"]!}";

        Assert.Null((string?)(await Told(record, "sensitivity", "SensitivityAnswer"))["first"]);
        Assert.Contains("referral", (string)(await Told(record, "counterfactuals?exercise=back-squat", "CounterfactualsAnswer"))["none"]!);
        Assert.Contains("referral", (string)(await Told(record, "comparison?first=back-squat&second=front-squat", "ComparisonAnswer"))["sentence"]!);
    }

    [Theory]
    [InlineData("comparison?first=back-sqat&second=depth-jump", "?first", "unknown-id", "back-squat")]
    [InlineData("comparison?first=back-squat&second=Dept%20jump", "?second", "unknown-id", "depth-jump")]
    [InlineData("comparison?first=back-squat&second=back-squat", "?second", "contradiction", "same exercise")]
    [InlineData("comparison?first=back-squat", "?second", "required", "give an exercise id")]
    [InlineData("comparison?first=back-squat&second=", "?second", "required", "give an exercise id")]
    [InlineData("comparison?first=back-squat&first=front-squat&second=depth-jump", "?first", "given-twice", "give it once")]
    [InlineData("comparison?first=back-squat&second=depth-jump&third=x", "?third", "unknown-parameter", "first, second")]
    [InlineData("counterfactuals", "?exercise", "required", "give an exercise id")]
    [InlineData("counterfactuals?exercise=%00", "?exercise", "unknown-id", "did you mean")]
    [InlineData("counterfactuals?exercise=nordic", "?exercise", "unknown-id", "nordic")]
    [InlineData("sensitivity?seed=4", "?seed", "unknown-parameter", "takes no query")]
    public async Task A_query_that_cannot_be_used_is_told(string query, string pointer, string code, string says)
    {
        var (record, _) = await Ask("/v1/recommendations", Examples.Minimal());

        using var response = await api.Client.GetAsync($"{record}/{query}");

        var problem = await ProblemAssert.Is(response, 400, "malformed-request", pointer, code);
        Assert.Contains(says, (string)problem["errors"]![0]!["message"]!);
    }

    [Theory]
    [InlineData("comparison?first=back-squat&second=depth-jump")]
    [InlineData("counterfactuals?exercise=depth-jump")]
    [InlineData("sensitivity")]
    public async Task An_unknown_decision_is_not_found(string query)
    {
        using var response = await api.Client.GetAsync($"{Unknown}/{query}");

        await ProblemAssert.Is(response, 404, "not-found");
    }

    [Fact]
    public async Task Text_that_is_very_long_is_refused_quickly()
    {
        var (record, _) = await Ask("/v1/recommendations", Examples.Minimal());

        using var response = await api.Client.GetAsync($"{record}/counterfactuals?exercise={new string('x', 4_000)}");

        await ProblemAssert.Is(response, 400, "malformed-request", "?exercise", "unknown-id");
    }

    private static string Id(JsonNode pick) => (string)pick["exercise"]!["id"]!;

    private async Task<(string Record, List<JsonNode> Picks)> Ask(string path, string body)
    {
        var answer = await api.Answer(path, body);
        return ($"/v1/decisions/{(string)answer["decisionId"]!}", [.. answer["picks"]!.AsArray().Select(p => p!)]);
    }

    private async Task<JsonObject> Told(string record, string query, string schema)
    {
        var told = await api.Get($"{record}/{query}");
        (await ServedDocument.Of(api)).MustAccept(schema, told.ToJsonString());
        return told;
    }
}
