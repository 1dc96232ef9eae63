using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Recommendations;

[Collection(SharedApi.Name)]
public sealed class RecommendationEndpointsTests(ApiHost api)
{
    // What "knee" stands for.
    private static readonly string[] Knee = ["patellar-tendon", "patellofemoral"];

    [Fact]
    public async Task The_least_that_is_needed_is_answered_and_every_gap_is_listed()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal());

        Assert.Equal("answered", (string)answer["status"]!);
        Assert.Equal(6, answer["picks"]!.AsArray().Count);
        Assert.Equal(
            ["/athlete/event", "/athlete/ageYears", "/athlete/trainingAgeYears", "/athlete/competence", "/weeksToCompetition", "/setting/place", "/setting/equipment", "/count"],
            answer["assumed"]!.AsArray().Select(a => (string)a!["pointer"]!));
        Assert.Equal("adult", (string?)Assumed(answer, "/athlete/ageYears"));
        Assert.Equal("club-gym", (string?)Assumed(answer, "/setting/place"));
        Assert.Equal(6, (int)Assumed(answer, "/count"));
        Assert.NotEmpty(Assumed(answer, "/setting/equipment").AsArray());
    }

    [Fact]
    public async Task What_the_request_says_is_not_assumed()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b =>
        {
            b["athlete"] = JsonNode.Parse("{\"event\":\"high-jump\",\"ageYears\":19,\"trainingAgeYears\":0,\"competence\":[]}");
            b["setting"] = JsonNode.Parse("{\"place\":\"home\",\"equipment\":[]}");
            b["weeksToCompetition"] = 0;
            b["count"] = 1;
        }));

        Assert.Empty(answer["assumed"]!.AsArray());
    }

    [Theory]
    [MemberData(nameof(Examples.CaseNames), MemberType = typeof(Examples))]
    public async Task Contributions_sum_to_the_score_exactly_and_shares_sum_to_one(string name)
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case(name));

        Assert.Equal(1m, answer["needs"]!.AsArray().Sum(n => (decimal)n!["weight"]!));
        Assert.All(answer["needs"]!.AsArray(), n => Assert.Equal(1m, n!["from"]!.AsArray().Sum(f => (decimal)f!["share"]!)));
        Assert.All(answer["picks"]!.AsArray(), p =>
        {
            Assert.Equal((decimal)p!["score"]!, p["contributions"]!.AsArray().Sum(c => (decimal)c!["points"]!));
            Assert.Equal(1m, p["evidence"]!.AsObject().Sum(e => (decimal)e.Value!));
        });
        Assert.Equal(Enumerable.Range(1, answer["picks"]!.AsArray().Count), answer["picks"]!.AsArray().Select(p => (int)p!["rank"]!));
    }

    [Fact]
    public async Task A_hotel_with_a_band_and_a_dumbbell_gets_only_what_they_allow()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case("discus-thrower-in-a-hotel"));

        Assert.Equal("answered", (string)answer["status"]!);
        Assert.NotEmpty(answer["picks"]!.AsArray());
        Assert.All(answer["picks"]!.AsArray(), p => Assert.Subset(new HashSet<string> { "band", "dumbbell" }, p!["exercise"]!["equipment"]!.AsArray().Select(e => (string)e!).ToHashSet()));
    }

    [Fact]
    public async Task A_sore_tendon_is_met_with_limits_that_every_pick_keeps()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));

        var limits = answer["limits"]!.AsArray().Where(l => (string)l!["region"]! == "patellar-tendon").ToDictionary(l => (string)l!["loadingRate"]!, l => (decimal)l!["maxTissueLoad"]!);
        Assert.NotEmpty(limits);
        Assert.All(answer["picks"]!.AsArray(), p =>
        {
            var load = p!["tissueLoad"]!["patellar-tendon"];
            Assert.True(load is null || !limits.TryGetValue((string)p["exercise"]!["loadingRate"]!, out var max) || (decimal)load["high"]! <= max);
        });
    }

    [Fact]
    public async Task A_locked_knee_is_referred_and_no_pick_loads_it()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case("high-jumper-with-a-locked-knee"));

        Assert.Equal("regions", (string)answer["referral"]!["scope"]!);
        Assert.Contains(answer["referral"]!["reasons"]!.AsArray(), r => (string)r!["flag"]! == "locked-joint");
        Assert.True((string)answer["status"]! is "answered" or "nothing-eligible");
        var spared = (decimal)JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data", "rules", "pain.json")))!["sparedLoad"]!["value"]!;
        foreach (var pick in answer["picks"]!.AsArray())
        {
            var exercise = await api.Get($"/v1/exercises/{(string)pick!["exercise"]!["id"]!}");
            Assert.All(Knee, region => Assert.True(exercise["tissueLoad"]![region] is not { } load || (decimal)load["high"]! <= spared));
        }
    }

    [Theory]
    [InlineData("{\"redFlags\":[\"chest-pain\"]}")]
    [InlineData("{\"complaints\":[{\"region\":\"knee\",\"pain\":2,\"redFlags\":[\"hot-swollen-joint\"]}]}")]
    public async Task A_red_flag_about_the_whole_person_gives_a_referral_and_no_picks(string more)
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b =>
        {
            foreach (var (name, value) in JsonNode.Parse(more)!.AsObject())
            {
                b[name] = value?.DeepClone();
            }
        }));

        Assert.Equal("referred", (string)answer["status"]!);
        Assert.Empty(answer["picks"]!.AsArray());
        Assert.Equal("all", (string)answer["referral"]!["scope"]!);
        Assert.NotEmpty((string)answer["referral"]!["advice"]!);
    }

    [Theory]
    [InlineData("\"only\":{\"support\":[]}")]
    [InlineData("\"only\":{\"pattern\":[\"hinge\"],\"quality\":[\"rotator-cuff-strength\"]}")]
    public async Task Wishes_that_nothing_can_meet_are_answered_with_what_blocks(string more)
    {
        var answer = await api.Answer("/v1/recommendations", $"{{\"athlete\":{{\"eventGroup\":\"jumps\"}},\"phase\":\"competition\",{more}}}");

        Assert.Equal("nothing-eligible", (string)answer["status"]!);
        Assert.Empty(answer["picks"]!.AsArray());
        Assert.NotEmpty(answer["leftOut"]!["byReason"]!.AsArray());
        Assert.Contains(answer["cautions"]!.AsArray(), c => ((string)c!).Contains("Nothing is eligible", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Excluding_what_the_filter_asks_for_leaves_nothing_and_says_why()
    {
        var hinges = (await api.Get("/v1/exercises?pattern=hinge&limit=100"))["items"]!.AsArray().Select(e => JsonValue.Create((string)e!["id"]!));

        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b =>
        {
            b["only"] = JsonNode.Parse("{\"pattern\":[\"hinge\"]}");
            b["exclude"] = new JsonArray([.. hinges]);
        }));

        Assert.Equal("nothing-eligible", (string)answer["status"]!);
        Assert.Equal(0, (int)answer["eligibleCount"]!);
        Assert.Contains(answer["leftOut"]!["byReason"]!.AsArray(), r => (int)r!["count"]! > 0 && (string)r["reason"]! is "excluded" or "not-asked-for");
    }

    [Fact]
    public async Task The_same_request_twice_gives_the_same_answer_under_two_ids()
    {
        var first = await api.Answer("/v1/recommendations", Examples.Case(Examples.Cases[0]));
        var second = await api.Answer("/v1/recommendations", Examples.Case(Examples.Cases[0]));

        Assert.NotEqual((string)first["decisionId"]!, (string)second["decisionId"]!);
        first.Remove("decisionId");
        second.Remove("decisionId");
        Assert.Equal(first.ToJsonString(), second.ToJsonString());
    }

    [Fact]
    public async Task Every_answer_says_that_it_is_no_medical_advice()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal());

        Assert.Contains("not medical advice", (string)answer["cautions"]![0]!);
    }

    private static JsonNode Assumed(JsonObject answer, string pointer) => answer["assumed"]!.AsArray().Single(a => (string)a!["pointer"]! == pointer)!["value"]!;
}
