using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Needs;

[Collection(SharedApi.Name)]
public sealed class NeedsEndpointsTests(ApiHost api)
{
    private const string Path = "/v1/needs";
    private const string Tested = "analyseNeeds.request.a-tested-sprinter.json";

    [Theory]
    [MemberData(nameof(Examples.CaseNames), MemberType = typeof(Examples))]
    public async Task Needs_referral_and_cautions_are_those_of_a_recommendation(string name)
    {
        var body = JsonNode.Parse(Examples.Case(name))!.AsObject();
        foreach (var choosing in new[] { "count", "exclude", "only" })
        {
            body.Remove(choosing);
        }

        var recommended = await api.Answer("/v1/recommendations", body.ToJsonString());
        var needs = await api.Answer(Path, body.ToJsonString());

        Assert.True(JsonNode.DeepEquals(recommended["needs"], needs["needs"]));
        Assert.True(JsonNode.DeepEquals(recommended["referral"], needs["referral"]));
        Assert.True(JsonNode.DeepEquals(recommended["versions"], needs["versions"]));
        Assert.Subset(recommended["cautions"]!.AsArray().Select(c => (string)c!).ToHashSet(), needs["cautions"]!.AsArray().Select(c => (string)c!).ToHashSet());
        Assert.DoesNotContain(needs["assumed"]!.AsArray(), a => (string)a!["pointer"]! == "/count");
        Assert.Equal(["needs", "derived", "cautions", "referral", "assumed", "versions"], needs.Select(p => p.Key));
    }

    [Fact]
    public async Task Tests_are_shown_with_formula_threshold_and_what_they_raise()
    {
        var answer = await api.Answer(Path, Examples.Text(Tested));

        var derived = answer["derived"]!.AsArray().ToLookup(d => (string)d!["name"]!);
        var index = derived["dynamicStrengthIndex"].Single()!;
        // 2050 N over 2350 N, worked by hand.
        Assert.Equal(0.872m, (decimal)index["value"]!);
        Assert.Equal("jump peak force / isometric peak force", (string)index["formula"]!);
        Assert.Equal("dsi-methods-2025", (string)index["source"]!);
        Assert.Equal("need", (string)index["threshold"]!["verdict"]!);
        Assert.Equal(0.8m, (decimal)index["threshold"]!["bound"]!);
        Assert.Equal(["max-strength"], index["raises"]!.AsArray().Select(q => (string)q!));

        var ankle = derived["kneeToWallCm"].ToDictionary(d => (string)d!["side"]!, d => d!);
        Assert.Equal("need", (string)ankle["left"]["threshold"]!["verdict"]!);
        Assert.Equal("cannot-tell", (string)ankle["right"]["threshold"]!["verdict"]!);
        Assert.Null(derived["sprintForce"].Single()!["side"]);
        Assert.Contains(answer["cautions"]!.AsArray(), c => ((string)c!).Contains("left leg tests weaker; that is the habit of the event (the right leg, outside on the bend", StringComparison.Ordinal));
        var origin = answer["needs"]!.AsArray().Single(n => (string)n!["quality"]! == "ankle-mobility")!["from"]!.AsArray().Single(f => (string)f!["source"]! == "test");
        Assert.Contains("left 7 cm against 10, error 1.9", (string)origin!["note"]!);
    }

    [Fact]
    public async Task Without_tests_nothing_is_derived() => Assert.Empty((await api.Answer(Path, Examples.Minimal()))["derived"]!.AsArray());

    [Fact]
    public async Task No_decision_goes_on_record()
    {
        var before = api.DecisionCount();

        await api.Answer(Path, Examples.Text(Tested));

        Assert.Equal(before, api.DecisionCount());
    }

    [Theory]
    [InlineData("count", "6")]
    [InlineData("count", "null")]
    [InlineData("exclude", "[\"back-squat\"]")]
    [InlineData("only", "{}")]
    [InlineData("colour", "1")]
    public async Task What_chooses_among_exercises_is_unknown_here(string property, string value)
    {
        using var response = await api.Post(Path, Examples.Minimal(b => b[property] = JsonNode.Parse(value)));

        await ProblemAssert.Is(response, 400, "malformed-request", $"/{property}", "unknown-property");
    }

    [Fact]
    public async Task The_same_names_deeper_down_are_no_fault_of_their_own()
    {
        using var response = await api.Post(Path, Examples.Minimal(b => b["tests"] = JsonNode.Parse("{\"count\":1}")));

        await ProblemAssert.Is(response, 400, "malformed-request", "/tests/count", "unknown-property");
    }

    [Theory]
    [InlineData("", "", "not-json")]
    [InlineData("[]", "", "wrong-type")]
    [InlineData("null", "", "wrong-type")]
    [InlineData("{\"tests\":{\"trials\":1.5}}", "/tests/trials", "wrong-type")]
    [InlineData("{\"tests\":{\"squatJumpCm\":NaN}}", "/tests/squatJumpCm", "not-json")]
    public async Task A_body_that_cannot_be_read_is_told_by_pointer_and_code(string body, string pointer, string code)
    {
        using var response = await api.Post(Path, body);

        await ProblemAssert.Is(response, 400, "malformed-request", pointer, code);
    }

    [Theory]
    [InlineData("tests", "{\"counterMovementJumpCm\":300}", "/tests/counterMovementJumpCm", "impossible-value")]
    [InlineData("tests", "{\"counterMovementJumpFlightMs\":1600}", "/tests/counterMovementJumpFlightMs", "impossible-value")]
    [InlineData("tests", "{\"dropJump\":{\"heightCm\":30,\"contactMs\":20}}", "/tests/dropJump/contactMs", "impossible-value")]
    [InlineData("tests", "{\"nordicForceN\":{\"right\":4000}}", "/tests/nordicForceN/right", "impossible-value")]
    [InlineData("tests", "{\"loadedJumps\":[{\"loadKg\":0,\"heightCm\":300}]}", "/tests/loadedJumps/0/heightCm", "out-of-range")]
    [InlineData("tests", "{\"sprintSplits\":[{\"distanceM\":10,\"seconds\":0.6}]}", "/tests/sprintSplits/0/seconds", "impossible-value")]
    [InlineData("tests", "{\"sprintSplits\":[{\"distanceM\":30,\"seconds\":4.1},{\"distanceM\":10,\"seconds\":1.8},{\"distanceM\":20,\"seconds\":4.2}]}", "/tests/sprintSplits/0/seconds", "impossible-value")]
    [InlineData("tests", "{\"sprintStart\":\"whistle\"}", "/tests/sprintStart", "unknown-id")]
    [InlineData("tests", "{\"testPain\":11}", "/tests/testPain", "out-of-range")]
    [InlineData("tests", "{\"trials\":0}", "/tests/trials", "out-of-range")]
    [InlineData("tests", "{\"daysAgo\":-1}", "/tests/daysAgo", "out-of-range")]
    [InlineData("athlete", "{\"event\":\"sprint-hurdles\",\"leadLeg\":\"both\"}", "/athlete/leadLeg", "unknown-id")]
    [InlineData("athlete", "{\"event\":\"javelin\",\"throwingSide\":\"up\"}", "/athlete/throwingSide", "unknown-id")]
    [InlineData("athlete", "{\"event\":\"100m\",\"startFrontFoot\":\"\"}", "/athlete/startFrontFoot", "unknown-id")]
    public async Task A_value_that_cannot_be_used_is_told_by_pointer_and_code(string property, string value, string pointer, string code)
    {
        using var response = await api.Post(Path, Examples.Minimal(b => b[property] = JsonNode.Parse(value)));

        await ProblemAssert.Is(response, 422, "invalid-request", pointer, code);
    }

    [Theory]
    [InlineData("{\"counterMovementJumpCm\":40,\"squatJumpCm\":52}", "far above the counter-movement jump")]
    [InlineData("{\"dynamicStrengthIndex\":0.6,\"jumpPeakForceN\":2000,\"isometricPeakForceN\":2400}", "was sent as 0.6")]
    [InlineData("{\"reactiveStrengthIndex\":2.4,\"dropJump\":{\"heightCm\":30,\"contactMs\":200}}", "was sent as 2.4")]
    [InlineData("{\"counterMovementJumpCm\":60,\"counterMovementJumpFlightMs\":500}", "was sent as 60")]
    [InlineData("{\"jumpPeakForceN\":6000,\"isometricPeakForceN\":1000}", "which is not possible")]
    public async Task Tests_that_do_not_fit_together_are_answered_with_a_caution(string tests, string caution)
    {
        var answer = await api.Answer(Path, Examples.Minimal(b => b["tests"] = JsonNode.Parse(tests)));

        Assert.Contains(answer["cautions"]!.AsArray(), c => ((string)c!).Contains(caution, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_red_flag_is_answered_with_a_referral()
    {
        var answer = await api.Answer(Path, Examples.Minimal(b => b["redFlags"] = new JsonArray("chest-pain")));

        Assert.Equal("all", (string)answer["referral"]!["scope"]!);
        Assert.Contains("not medical advice", (string)answer["cautions"]![0]!);
        Assert.Equal((string)answer["referral"]!["advice"]!, (string)answer["cautions"]![1]!);
    }

    [Fact]
    public async Task The_same_key_and_body_give_the_same_bytes_and_another_body_is_a_conflict()
    {
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        var before = api.DecisionCount();

        using var first = await api.Post(Path, Examples.Minimal(), key);
        using var second = await api.Post(Path, Examples.Minimal(), key);
        using var other = await api.Post(Path, Examples.Minimal(b => b["weeksToCompetition"] = 3), key);
        using var elsewhere = await api.Post("/v1/recommendations", Examples.Minimal(), key);

        Assert.Equal(200, (int)first.StatusCode);
        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        await ProblemAssert.Is(other, 409, "idempotency-conflict");
        await ProblemAssert.Is(elsewhere, 409, "idempotency-conflict");
        Assert.Equal(before, api.DecisionCount());
    }

    [Fact]
    public async Task Request_and_answer_are_valid_against_the_served_document()
    {
        var document = await ServedDocument.Of(api);
        document.MustAccept("NeedsRequest", Examples.Text(Tested));
        Assert.NotEmpty(document.Faults("NeedsRequest", Examples.Minimal(b => b["count"] = 6)));

        document.MustAccept("NeedsAnswer", (await api.Answer(Path, Examples.Text(Tested))).ToJsonString());
        document.MustAccept("NeedsAnswer", (await api.Answer(Path, Examples.Minimal())).ToJsonString());
    }
}
