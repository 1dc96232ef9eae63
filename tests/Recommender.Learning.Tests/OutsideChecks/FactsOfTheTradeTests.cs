using Recommender.Testing;

namespace Recommender.Learning.Tests.OutsideChecks;

/// <summary>
/// Five exercises that serve every event group: in general preparation, in a full gym, for a trained adult, each is eligible and meets a need. Each is asked of its own
/// pattern, not as one list. Common practice, no source.
/// </summary>
public sealed class FactsOfTheTradeTests
{
    public static TheoryData<string> EventGroups => ["sprints", "distance", "jumps", "throws"];

    [Theory]
    [MemberData(nameof(EventGroups))]
    public void A_pull_from_a_low_block_serves(string group) => Serves(group, "olympic-lift", "block-clean-pull");

    [Theory]
    [MemberData(nameof(EventGroups))]
    public void A_single_leg_squat_serves(string group) => Serves(group, "single-leg", "single-leg-squat");

    [Theory]
    [MemberData(nameof(EventGroups))]
    public void A_banded_goblet_squat_serves(string group) => Serves(group, "squat", "banded-goblet-squat");

    [Theory]
    [MemberData(nameof(EventGroups))]
    public void A_crawling_hollow_plank_serves(string group) => Serves(group, "crawl-carry", "hollow-plank-crawl");

    [Theory]
    [MemberData(nameof(EventGroups))]
    public void Neutral_grip_pull_ups_serve(string group) => Serves(group, "upper-pull", "neutral-grip-pull-up");

    private static void Serves(string group, string pattern, string id)
    {
        var stages = Stages.Of(RequestBuilder.For(group, "general-preparation").Aged(24, trained: 5).In("full-gym"));
        Assert.Equal(pattern, TestEdition.Exercise(id).Pattern);

        var ranking = stages.Ranking();
        var rank = Array.IndexOf(ranking.Positions, stages.Catalogue.PositionOf(id));

        Assert.True(rank >= 0, $"{id} is not eligible for {group}.");
        Assert.True(ranking.NeedPoints[rank] > 0, $"{id} meets no need of {group}.");
    }
}
