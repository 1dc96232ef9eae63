using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Needs;

public sealed class NeedAnalysisTests
{
    // A long jumper who needs 6 of max-strength, 3 of grip and 1 of upper-pull; no phase moves that unless a test says so.
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge
        .WithProfile("long-jump", p => p with { Qualities = new Dictionary<string, decimal> { ["max-strength"] = 6, ["grip"] = 3, ["upper-pull"] = 1 } })
        .WithGroup("jumps", g => g with { DefaultEvent = "long-jump", PhaseEmphasis = Emphasis(g.PhaseEmphasis, []) })
        .With(needs: new NeedRules(
            new Dictionary<string, RuleNumber> { ["low"] = Number(0.1m), ["medium"] = Number(0.25m), ["high"] = Number(1) }, AliasShare: Number(0.2m), TestsShareCap: Number(0.35m),
            [new ComplaintNeed("tendon", ["patellar-tendon"], 1, 5, new Dictionary<string, decimal> { ["quadriceps-capacity"] = 0.25m }, "a sore tendon needs load", Basis.CommonPractice)]));

    [Fact]
    public void The_event_profile_alone_sums_to_one() => Assert.Equal([("max-strength", 0.6m), ("grip", 0.3m), ("upper-pull", 0.1m)], Weights(RequestBuilder.For()));

    [Fact]
    public void The_phase_moves_the_profile()
    {
        var rules = Rules.WithGroup("jumps", g => g with { PhaseEmphasis = Emphasis(g.PhaseEmphasis, new() { ["max-strength"] = 0.5m, ["grip"] = 2, ["upper-pull"] = 0 }) });
        Assert.Equal([("grip", 0.6667m), ("max-strength", 0.3333m)], Weights(RequestBuilder.For(), rules));
    }

    [Fact]
    public void A_need_of_the_coach_is_added_before_all_are_scaled() =>
        Assert.Equal([("max-strength", 0.48m), ("grip", 0.24m), ("muscle-mass", 0.2m), ("upper-pull", 0.08m)], Weights(RequestBuilder.For().Wanting("muscle-mass", "medium")));

    [Fact]
    public void A_need_without_importance_or_weight_is_medium() => Assert.Equal(Weights(RequestBuilder.For().Wanting("muscle-mass", "medium")), Weights(RequestBuilder.For().Wanting("muscle-mass", null)));

    [Fact]
    public void A_weight_of_the_coach_is_taken_as_it_is()
    {
        Assert.Equal(("muscle-mass", 0.5m), Weights(RequestBuilder.For().Weighing("muscle-mass", 1))[0]);
        Assert.DoesNotContain(Weights(RequestBuilder.For().Weighing("muscle-mass", 0)), n => n.Quality == "muscle-mass");
    }

    [Fact]
    public void Trunk_control_gives_each_trunk_quality_its_share()
    {
        var trunk = TestEdition.Vocabulary.Aliases.Find("trunk-control")!.Qualities;
        var needs = Weights(RequestBuilder.For().Wanting("trunk-control", "high")).Where(n => trunk.Contains(n.Quality)).ToList();
        var each = 0.2m / (1 + (0.2m * trunk.Count));
        Assert.Equal(trunk.Count, needs.Count);
        Assert.All(needs, n => Assert.InRange(n.Weight, each - 0.0001m, each + 0.0001m));
    }

    [Fact]
    public void A_need_from_two_sides_says_so_with_shares_that_sum_to_one()
    {
        var need = Of(RequestBuilder.For().Wanting("grip", "low")).Needs.Single(n => n.Quality == "grip");
        Assert.Equal([("event-profile", 0.75m), ("coach", 0.25m)], need.From.Select(f => (f.Source, f.Share)));
        Assert.Contains("the coach called it low", need.From[1].Note, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, false)]
    [InlineData(1, true)]
    [InlineData(5, true)]
    [InlineData(6, false)]
    public void A_complaint_brings_what_the_region_needs_inside_its_band_of_pain(int pain, bool brings)
    {
        var need = Of(RequestBuilder.For().Sore("patellar-tendon", pain)).Needs.SingleOrDefault(n => n.Quality == "quadriceps-capacity");
        Assert.Equal(brings, need is not null);
        if (need is not null)
        {
            Assert.Equal((0.2m, "complaint", "a sore tendon needs load"), (need.Weight, need.From[0].Source, need.From[0].Note));
        }
    }

    [Fact]
    public void A_complaint_of_both_sides_brings_its_need_once() =>
        Assert.Equal(Weights(RequestBuilder.For().Sore("patellar-tendon", 2)), Weights(RequestBuilder.For().Sore("patellar-tendon", 2, "left").Sore("patellar-tendon", 3, "right")));

    [Fact]
    public void A_complaint_with_a_red_flag_brings_no_need() =>
        Assert.Equal(Weights(RequestBuilder.For()), Weights(RequestBuilder.For().Sore("patellar-tendon", 2, redFlags: "giving-way")));

    [Fact]
    public void Needs_stand_heaviest_first_and_equal_ones_in_the_order_of_the_vocabulary()
    {
        var rules = Rules.WithProfile("long-jump", p => p with { Qualities = new Dictionary<string, decimal> { ["grip"] = 1, ["upper-pull"] = 1, ["max-strength"] = 1, ["muscle-mass"] = 2 } });
        Assert.Equal(["muscle-mass", "max-strength", "upper-pull", "grip"], Weights(RequestBuilder.For(), rules).Select(n => n.Quality));
    }

    [Fact]
    public void Every_event_in_every_phase_needs_something_and_sums_to_one()
    {
        foreach (var e in TestEdition.Vocabulary.Events)
        {
            foreach (var phase in TestEdition.Vocabulary.Phases)
            {
                var needs = Stages.Of(RequestBuilder.For(e.EventGroup, phase.Id).Doing(e.Id)).Profile.Needs;
                Assert.Equal(NeedProfile.WeightUnits, needs.Sum(n => n.WeightUnits));
            }
        }
    }

    private static NeedProfile Of(RequestBuilder request, KnowledgeBase? rules = null) => Stages.Of(request, TestEdition.Under(rules ?? Rules)).Profile;

    private static List<(string Quality, decimal Weight)> Weights(RequestBuilder request, KnowledgeBase? rules = null) => [.. Of(request, rules).Needs.Select(n => (n.Quality, n.Weight))];

    private static RuleNumber Number(decimal value) => new(value, Basis.CommonPractice);

    private static PhaseEmphasis Emphasis(PhaseEmphasis emphasis, Dictionary<string, decimal> multipliers) =>
        emphasis with { Default = 1, Phases = Enum.GetValues<Phase>().ToDictionary(p => p, _ => (IReadOnlyDictionary<string, decimal>)multipliers) };
}
