using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Recommendations;

/// <summary>Bodies that were understood but hold values that cannot be used.</summary>
[Collection(SharedApi.Name)]
public sealed class RequestProblemTests(ApiHost api)
{
    [Theory]
    [InlineData("{}", "/athlete", "required")]
    [InlineData("{}", "/phase", "required")]
    [InlineData("{\"athlete\":{},\"phase\":\"taper\"}", "/athlete/eventGroup", "required")]
    [InlineData("{\"athlete\":{\"eventGroup\":null},\"phase\":\"taper\"}", "/athlete/eventGroup", "required")]
    public async Task What_is_missing_is_named(string body, string pointer, string code)
    {
        using var response = await api.Post("/v1/recommendations", body);

        await ProblemAssert.Is(response, 422, "invalid-request", pointer, code);
    }

    [Theory]
    [InlineData("phase", "\"winter\"", "/phase", "unknown-id")]
    [InlineData("weeksToCompetition", "-0.1", "/weeksToCompetition", "out-of-range")]
    [InlineData("weeksToCompetition", "60.1", "/weeksToCompetition", "out-of-range")]
    [InlineData("count", "0", "/count", "out-of-range")]
    [InlineData("count", "31", "/count", "out-of-range")]
    [InlineData("complaints", "[{\"region\":\"knee\",\"pain\":-1}]", "/complaints/0/pain", "out-of-range")]
    [InlineData("complaints", "[{\"region\":\"knee\",\"pain\":11}]", "/complaints/0/pain", "out-of-range")]
    [InlineData("complaints", "[{\"region\":\"knee\"}]", "/complaints/0/pain", "required")]
    [InlineData("complaints", "[{\"pain\":3}]", "/complaints/0/region", "required")]
    [InlineData("complaints", "[{\"region\":\"kneecap\",\"pain\":3}]", "/complaints/0/region", "unknown-id")]
    [InlineData("complaints", "[{\"region\":\"knee\",\"pain\":3,\"side\":\"inside\"}]", "/complaints/0/side", "unknown-id")]
    [InlineData("complaints", "[{\"region\":\"knee\",\"pain\":3,\"nextMorning\":\"fine\"}]", "/complaints/0/nextMorning", "unknown-id")]
    [InlineData("complaints", "[{\"region\":\"knee\",\"pain\":3,\"redFlags\":[\"sore\"]}]", "/complaints/0/redFlags/0", "unknown-id")]
    [InlineData("complaints", "[null]", "/complaints/0", "required")]
    [InlineData("redFlags", "[\"fever\"]", "/redFlags/0", "unknown-id")]
    [InlineData("needs", "[{\"quality\":\"speed\"}]", "/needs/0/quality", "unknown-id")]
    [InlineData("needs", "[{}]", "/needs/0/quality", "required")]
    [InlineData("needs", "[{\"quality\":\"grip\",\"importance\":\"huge\"}]", "/needs/0/importance", "unknown-id")]
    [InlineData("needs", "[{\"quality\":\"grip\",\"weight\":1.01}]", "/needs/0/weight", "out-of-range")]
    [InlineData("needs", "[{\"quality\":\"grip\",\"weight\":0.5,\"importance\":\"high\"}]", "/needs/0/weight", "contradiction")]
    [InlineData("setting", "{\"place\":\"beach\"}", "/setting/place", "unknown-id")]
    [InlineData("setting", "{\"equipment\":[\"band\",\"bands\"]}", "/setting/equipment/1", "unknown-id")]
    [InlineData("setting", "{\"minutes\":0}", "/setting/minutes", "out-of-range")]
    [InlineData("setting", "{\"limits\":[\"no-noise\"]}", "/setting/limits/0", "unknown-id")]
    [InlineData("recent", "[{\"exercise\":\"nordic\",\"daysAgo\":2}]", "/recent/0/exercise", "unknown-id")]
    [InlineData("recent", "[{\"exercise\":\"back-squat\"}]", "/recent/0/daysAgo", "required")]
    [InlineData("recent", "[{\"exercise\":\"back-squat\",\"daysAgo\":-1}]", "/recent/0/daysAgo", "out-of-range")]
    [InlineData("recent", "[{\"exercise\":\"back-squat\",\"daysAgo\":1,\"unit\":\"miles\"}]", "/recent/0/unit", "unknown-id")]
    [InlineData("exclude", "[\"back-squat\",\"squat\"]", "/exclude/1", "unknown-id")]
    [InlineData("only", "{\"support\":[\"one-leg\"]}", "/only/support/0", "unknown-id")]
    [InlineData("only", "{\"quality\":[\"core\"]}", "/only/quality/0", "unknown-id")]
    [InlineData("tests", "{\"counterMovementJumpCm\":250}", "/tests/counterMovementJumpCm", "impossible-value")]
    [InlineData("tests", "{\"kneeToWallCm\":{\"left\":9,\"right\":99}}", "/tests/kneeToWallCm/right", "impossible-value")]
    [InlineData("tests", "{\"singleLegSquatRating\":{\"left\":\"great\"}}", "/tests/singleLegSquatRating/left", "unknown-id")]
    [InlineData("tests", "{\"repetitionsToFailure\":{\"squat\":{\"loadKg\":80,\"repetitions\":5}}}", "/tests/repetitionsToFailure/squat", "unknown-id")]
    [InlineData("athlete", "{\"eventGroup\":\"running\"}", "/athlete/eventGroup", "unknown-id")]
    [InlineData("athlete", "{\"event\":\"500m\"}", "/athlete/event", "unknown-id")]
    [InlineData("athlete", "{\"eventGroup\":\"throws\",\"event\":\"long-jump\"}", "/athlete/event", "contradiction")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"ageYears\":20,\"trainingAgeYears\":21}", "/athlete/trainingAgeYears", "contradiction")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"ageYears\":4}", "/athlete/ageYears", "out-of-range")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"sex\":\"f\"}", "/athlete/sex", "unknown-id")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"ref\":\"\"}", "/athlete/ref", "out-of-range")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"ref\":\"a\\u0000b\"}", "/athlete/ref", "out-of-range")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"oneRepMaxKg\":{\"squat/back\":100}}", "/athlete/oneRepMaxKg/squat~1back", "unknown-id")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"oneRepMaxKg\":{\"back-squat\":601}}", "/athlete/oneRepMaxKg/back-squat", "out-of-range")]
    [InlineData("athlete", "{\"eventGroup\":\"jumps\",\"competence\":[\"strong\"]}", "/athlete/competence/0", "unknown-id")]
    public async Task A_value_that_cannot_be_used_is_told_by_pointer_and_code(string property, string value, string pointer, string code)
    {
        var before = api.DecisionCount();
        using var response = await api.Post("/v1/recommendations", Examples.Minimal(b => b[property] = JsonNode.Parse(value)));

        await ProblemAssert.Is(response, 422, "invalid-request", pointer, code);
        Assert.Equal(before, api.DecisionCount());
    }

    [Theory]
    [InlineData("complaints", 12, "{\"region\":\"knee\",\"pain\":1}")]
    [InlineData("needs", 30, "{\"quality\":\"grip\"}")]
    [InlineData("recent", 200, "{\"exercise\":\"back-squat\",\"daysAgo\":9}")]
    [InlineData("exclude", 1000, "\"back-squat\"")]
    public async Task A_list_may_be_full_but_not_overfull(string property, int most, string entry)
    {
        string Body(int count) => Examples.Minimal(b => b[property] = new JsonArray([.. Enumerable.Range(0, count).Select(_ => JsonNode.Parse(entry))]));

        using var full = await api.Post("/v1/recommendations", Body(most));
        using var overfull = await api.Post("/v1/recommendations", Body(most + 1));

        Assert.Equal(200, (int)full.StatusCode);
        await ProblemAssert.Is(overfull, 422, "invalid-request", $"/{property}", "too-many");
    }

    [Fact]
    public async Task Two_hundred_complaints_are_one_fault_not_two_hundred()
    {
        using var response = await api.Post("/v1/recommendations", Examples.Minimal(b =>
            b["complaints"] = new JsonArray([.. Enumerable.Range(0, 200).Select(_ => JsonNode.Parse("{\"region\":\"nowhere\",\"pain\":99}"))])));

        var problem = await ProblemAssert.Is(response, 422, "invalid-request", "/complaints", "too-many");
        Assert.Single(problem["errors"]!.AsArray());
    }

    [Fact]
    public async Task Every_fault_is_told_at_once_in_the_order_of_the_body()
    {
        using var response = await api.Post("/v1/recommendations",
            "{\"athlete\":{\"eventGroup\":\"jumps\",\"ageYears\":200},\"phase\":\"winter\",\"complaints\":[{\"region\":\"knee\",\"pain\":11}],\"count\":0}");

        var problem = await ProblemAssert.Is(response, 422, "invalid-request");
        Assert.Equal(["/athlete/ageYears", "/phase", "/complaints/0/pain", "/count"], problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!));
        Assert.Contains("0 to 10", (string)problem["errors"]![2]!["message"]!);
    }

    [Fact]
    public async Task A_very_long_unknown_id_is_not_thrown_back_whole()
    {
        using var response = await api.Post("/v1/recommendations", Examples.Minimal(b => b["phase"] = new string('x', 200_000)));

        var problem = await ProblemAssert.Is(response, 422, "invalid-request", "/phase", "unknown-id");
        Assert.True(problem.ToJsonString().Length < 2000);
    }
}
