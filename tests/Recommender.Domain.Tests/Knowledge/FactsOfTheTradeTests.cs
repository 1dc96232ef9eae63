using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

/// <summary>Facts that a coach of the events would check first. Common practice, no source.</summary>
public sealed class FactsOfTheTradeTests
{
    private static readonly string[] Knee = ["patellar-tendon", "patellofemoral", "lateral-knee"];

    [Theory]
    [InlineData("throws")]
    [InlineData("jumps")]
    public void Knees_of_throwers_and_jumpers_are_at_risk(string group) =>
        Assert.All(Group(group), e => Assert.True(e.RegionsAtRisk.Any(r => Knee.Contains(r.Region) && r.Weight > 0), $"{e.Event}: no knee among the regions at risk."));

    [Fact]
    public void Every_throw_has_some_single_support() => Assert.All(Group("throws"), e => Assert.InRange(e.SingleSupportShare, 0.01m, 0.99m));

    [Fact]
    public void Running_and_jumping_are_mostly_single_support() =>
        Assert.All(Group("sprints").Concat(Group("distance")).Concat(Group("jumps").Where(e => e.Event != "pole-vault")), e => Assert.True(e.SingleSupportShare >= 0.85m, $"{e.Event}: {e.SingleSupportShare}."));

    [Fact]
    public void Hip_mobility_of_distance_runners_is_only_light_by_default()
    {
        // Light: below what an even spread over the profile would give, in every phase.
        foreach (var profile in Group("distance"))
        {
            foreach (var phase in TestEdition.Vocabulary.Phases)
            {
                var needs = Stages.Of(RequestBuilder.For("distance", phase.Id).Doing(profile.Event)).Profile.Needs;
                var hip = needs.SingleOrDefault(n => n.Quality == "hip-mobility");
                Assert.True(hip is null || hip.Weight < 1m / needs.Count, $"{profile.Event} in {phase.Id}: {hip?.Weight} of {needs.Count} needs.");
            }
        }
    }

    [Fact]
    public void Hurdlers_need_more_hip_mobility_than_flat_sprinters() =>
        Assert.True(TestEdition.Knowledge.ProfileOf("sprint-hurdles").Qualities["hip-mobility"] > TestEdition.Knowledge.ProfileOf("100m").Qualities.GetValueOrDefault("hip-mobility"));

    [Fact]
    public void Sprinters_hamstrings_are_what_the_event_wears_most() =>
        Assert.All(Group("sprints"), e => Assert.Equal("hamstring", e.RegionsAtRisk.MaxBy(r => r.Weight)!.Region));

    [Fact]
    public void Javelin_wears_shoulder_and_elbow() => Assert.Subset(TestEdition.Knowledge.ProfileOf("javelin").RegionsAtRisk.Select(r => r.Region).ToHashSet(), new HashSet<string> { "shoulder", "elbow" });

    [Fact]
    public void Upper_body_mass_costs_the_long_distances_most_and_the_throws_nothing()
    {
        Assert.All(Group("throws"), e => Assert.Equal(0, e.MassCost));
        Assert.Equal(TestEdition.Knowledge.EventGroups.SelectMany(g => g.Events).Max(e => e.MassCost), TestEdition.Knowledge.ProfileOf("marathon").MassCost);
    }

    [Theory]
    [InlineData("taper")]
    [InlineData("competition")]
    public void Nothing_new_that_makes_sore_is_offered_in_the_last_week(string phase)
    {
        var eligible = Stages.Of(RequestBuilder.Skilled("sprints", phase).WeeksOut(0.7m)).EligibleIds();
        Assert.DoesNotContain(eligible, id => TestEdition.Exercise(id).SorenessRisk == 3);
    }

    [Fact]
    public void A_novice_in_a_bare_room_still_gets_a_whole_list() => Assert.Equal(6, Stages.Answer(RequestBuilder.For("distance", "general-preparation").In("home", []).Limited("quiet", "small-space")).Picks.Count);

    private static IReadOnlyList<EventProfile> Group(string group) => TestEdition.Knowledge.GroupOf(group).Events;
}
