using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Sessions;

[Collection(SharedApi.Name)]
public sealed class SessionEndpointsTests(ApiHost api)
{
    private const string Path = "/v1/sessions";
    private static readonly string Jumper = Examples.Text("composeSession.request.a-jumper-with-half-an-hour.json");

    private static string Asked(Action<JsonObject>? change = null)
    {
        var body = new JsonObject { ["context"] = JsonNode.Parse("""{"athlete":{"eventGroup":"jumps"},"phase":"specific-preparation","setting":{"minutes":30}}""") };
        change?.Invoke(body);
        return body.ToJsonString();
    }

    [Fact]
    public async Task A_session_keeps_its_minutes_slots_and_budget_and_says_so()
    {
        var answer = await api.Answer(Path, Jumper);

        Assert.Equal("answered", (string)answer["status"]!);
        Assert.InRange(answer["picks"]!.AsArray().Count, 3, 5);
        Assert.InRange((decimal)answer["minutes"]! + (decimal)answer["minutesSaved"]!, 1, 30);
        Assert.Equal(Enumerable.Range(1, answer["picks"]!.AsArray().Count), answer["picks"]!.AsArray().Select(p => (int)p!["order"]!));
        Assert.True((bool)answer["optimality"]!["proven"]!);
        var budget = Assert.Single(answer["budgets"]!.AsArray())!;
        Assert.Equal((250m, false), ((decimal)budget["budget"]!, (bool)budget["assumed"]!));
        Assert.True((decimal)budget["left"]! >= 0);
        Assert.True((decimal)answer["tissueTotals"]!["patellar-tendon"]!["left"]! <= 250);
        Assert.Equal(690m, (decimal)answer["week"]!["ratings"]!["load"]!); // 6 x 75 + 4 x 60
        Assert.True((decimal)answer["week"]!["training"]!["achilles-calf"]!["left"]! > 0);
        Assert.Equal(0m, (decimal)answer["week"]!["training"]!["achilles-calf"]!["right"]!); // the take-off leg is the left
    }

    [Fact]
    public async Task A_locked_exercise_stays_and_an_avoided_one_goes()
    {
        var answer = await api.Answer(Path, Examples.Text("composeSession.request.a-thrower-who-keeps-an-exercise.json"));

        Assert.Contains(answer["picks"]!.AsArray(), p => (string)p!["exercise"]!["id"]! == "band-external-rotation" && (bool)p["locked"]!);
        Assert.DoesNotContain(answer["picks"]!.AsArray(), p => (string)p!["exercise"]!["id"]! == "pull-up");
    }

    [Fact]
    public async Task What_was_left_out_is_assumed_and_listed()
    {
        var answer = await api.Answer(Path, """{"context":{"athlete":{"eventGroup":"jumps"},"phase":"specific-preparation"}}""");

        var pointers = answer["assumed"]!.AsArray().Select(a => (string)a!["pointer"]!).ToList();
        Assert.Superset(new HashSet<string> { "/context/athlete/event", "/context/setting/minutes", "/slots/min", "/slots/max" }, pointers.ToHashSet());
        Assert.DoesNotContain("/context/count", pointers);
    }

    [Fact]
    public async Task The_decision_is_on_record_as_a_session_with_the_same_bytes()
    {
        using var response = await api.Post(Path, Jumper);
        var sent = await response.Content.ReadAsStringAsync();
        var record = await api.Get($"/v1/decisions/{(string)JsonNode.Parse(sent)!["decisionId"]!}");

        Assert.Equal("session", (string)record["kind"]!);
        Assert.Equal("NM-04", (string)record["athleteRef"]!);
        Assert.Equal("NM-04", (string)record["request"]!["context"]!["athlete"]!["ref"]!);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(sent), record["answer"]));
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Jumper)!["budgets"], record["request"]!["budgets"]));
    }

    [Fact]
    public async Task The_same_key_and_body_give_the_same_bytes_and_one_stored_decision()
    {
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        var before = api.DecisionCount();

        using var first = await api.Post(Path, Asked(), key);
        using var second = await api.Post(Path, Asked(), key);
        using var other = await api.Post(Path, Asked(b => b["slots"] = JsonNode.Parse("""{"max":3}""")), key);

        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        Assert.Equal(before + 1, api.DecisionCount());
        await ProblemAssert.Is(other, 409, "idempotency-conflict");
    }

    [Fact]
    public async Task Picks_of_an_earlier_decision_are_kept_while_little_is_lost()
    {
        var first = await api.Answer(Path, Asked());
        var second = await api.Answer(Path, Asked(b =>
        {
            b["previousDecision"] = (string)first["decisionId"]!;
            b["context"]!["setting"]!["minutes"] = 29;
        }));

        var earlier = first["picks"]!.AsArray().Select(p => (string)p!["exercise"]!["id"]!).ToList();
        Assert.Equal(earlier, second["previous"]!["exercises"]!.AsArray().Select(e => (string)e!));
        Assert.Equal(second["picks"]!.AsArray().Count(p => earlier.Contains((string)p!["exercise"]!["id"]!)), second["previous"]!["kept"]!.AsArray().Count);
        Assert.True(second["previous"]!["kept"]!.AsArray().Count >= earlier.Count - 1);
    }

    [Fact]
    public async Task Picks_of_a_recommendation_can_be_the_earlier_ones_too()
    {
        var recommended = await api.Answer("/v1/recommendations", Examples.Minimal());
        var answer = await api.Answer(Path, Asked(b => b["previousDecision"] = (string)recommended["decisionId"]!));
        Assert.Equal(recommended["picks"]!.AsArray().Count, answer["previous"]!["exercises"]!.AsArray().Count);
    }

    [Theory]
    [InlineData("""{"previousDecision":"01976f2e-4c5a-7d31-9b1e-3f0a5c2d8e47"}""", "/previousDecision", "unknown-id")]
    [InlineData("""{"previousDecision":"yesterday"}""", "/previousDecision", "unknown-id")]
    [InlineData("""{"slots":{"min":5,"max":4}}""", "/slots/min", "contradiction")]
    [InlineData("""{"slots":{"max":0}}""", "/slots/max", "out-of-range")]
    [InlineData("""{"budgets":{"tail":10}}""", "/budgets/tail", "unknown-id")]
    [InlineData("""{"budgets":{"hip":-1}}""", "/budgets/hip", "out-of-range")]
    [InlineData("""{"locked":["sit-around"]}""", "/locked/0", "unknown-id")]
    [InlineData("""{"locked":["back-squat"],"avoid":["back-squat"]}""", "/locked/0", "contradiction")]
    [InlineData("""{"locked":["back-squat","front-squat"]}""", "/locked/1", "contradiction")]
    [InlineData("""{"avoid":[null]}""", "/avoid/0", "required")]
    [InlineData("""{"context":{"athlete":{"eventGroup":"jumps"},"phase":"spring"}}""", "/context/phase", "unknown-id")]
    [InlineData("""{"context":null}""", "/context", "required")]
    public async Task What_cannot_be_asked_is_told_by_pointer_and_stored_nowhere(string more, string pointer, string code)
    {
        var before = api.DecisionCount();
        using var response = await api.Post(Path, Asked(b =>
        {
            foreach (var (name, value) in JsonNode.Parse(more)!.AsObject())
            {
                b[name] = value?.DeepClone();
            }
        }));

        var problem = JsonNode.Parse(await response.Content.ReadAsStringAsync())!;
        Assert.Equal(422, (int)response.StatusCode);
        var error = Assert.Single(problem["errors"]!.AsArray())!;
        Assert.Equal((pointer, code), ((string)error["pointer"]!, (string)error["code"]!));
        Assert.Equal(before, api.DecisionCount());
    }

    [Theory]
    [InlineData("""{"earlier":{"decisionId":"x","exercises":[]}}""", "/earlier")]
    [InlineData("""{"athlete":{"eventGroup":"jumps"}}""", "/athlete")]
    public async Task An_unknown_property_is_refused(string more, string pointer)
    {
        using var response = await api.Post(Path, Asked(b =>
        {
            foreach (var (name, value) in JsonNode.Parse(more)!.AsObject())
            {
                b[name] = value?.DeepClone();
            }
        }));
        Assert.Equal(400, (int)response.StatusCode);
        Assert.Contains($"\"pointer\":\"{pointer}\"", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lock_that_is_not_safe_is_answered_with_its_gate_and_no_session()
    {
        var answer = await api.Answer(Path, Asked(b =>
        {
            b["context"]!["complaints"] = JsonNode.Parse("""[{"region":"patellar-tendon","pain":5}]""");
            b["locked"] = new JsonArray("depth-jump");
        }));

        Assert.Equal("nothing-eligible", (string)answer["status"]!);
        Assert.Empty(answer["picks"]!.AsArray());
        Assert.Contains(answer["blocks"]!.AsArray(), b => (string)b!["constraint"]! == "tissue-load" && (string)b["exercise"]! == "depth-jump");
    }

    [Theory]
    [InlineData("""{"slots":{"min":6,"max":6},"context":{"athlete":{"eventGroup":"jumps"},"phase":"specific-preparation","setting":{"minutes":3}}}""", "minutes")]
    [InlineData("""{"locked":["back-squat"],"context":{"athlete":{"eventGroup":"throws","trainingAgeYears":6,"ageYears":25},"phase":"specific-preparation","setting":{"place":"full-gym","minutes":40}},"budgets":{"lower-back":0.5}}""", "budget:lower-back")]
    public async Task Limits_that_leave_nothing_are_named(string body, string constraint)
    {
        var answer = await api.Answer(Path, body);

        Assert.Equal("nothing-eligible", (string)answer["status"]!);
        Assert.Contains(answer["blocks"]!.AsArray(), b => (string)b!["constraint"]! == constraint);
        Assert.Contains(answer["cautions"]!.AsArray(), c => ((string)c!).StartsWith("No session is given", StringComparison.Ordinal));
    }
}
