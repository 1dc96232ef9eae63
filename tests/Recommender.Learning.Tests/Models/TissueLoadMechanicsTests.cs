using Recommender.Domain.Catalogue;
using Recommender.Testing;

namespace Recommender.Learning.Tests.Models;

public sealed class TissueLoadMechanicsTests
{
    private static readonly TissueLoadMechanics Mechanics = new(0.245m, 0.246m, 0.039m, 0.03m, 1.75m, 0.1m,
        new Dictionary<string, decimal> { ["none"] = 0, ["long"] = 1, ["medium"] = 1.5m, ["short"] = 2 }, Basis.Recalled, "winter-2009", "For tests.");

    private static readonly ExerciseFacts Standing = new(1, 0, 0, 0, 0, 0, 0, "flat", 0, 0, "none", "slow", 1, "quiet");

    [Fact]
    public void A_slow_two_leg_squat_is_what_a_calculator_gives()
    {
        // Half the body on a leg; knee 118, shank 33, ankle 29 degrees, so the foot's pitch is 4:
        // lever 0.246 sin 33 - (0.03 cos 4 - 0.039 sin 4) = 0.10677; moment 0.5 x 0.10677; bend 0.5 (1 - cos 118).
        var terms = Mechanics.TermsOf(Standing with { BodyweightShare = 0.5m, KneeFlexionDeg = 118, ShankLeanDeg = 33, AnkleDorsiflexionDeg = 29 });

        Assert.Equal(0.05339, terms.KneeMoment, 5);
        Assert.Equal(0.73474, terms.LoadedBend, 5);
        Assert.Equal(0, terms.RateClass);
    }

    [Fact]
    public void A_jump_off_one_leg_pushes_harder_by_its_height_over_its_way()
    {
        // Knee 72, shank 30, ankle 28 degrees, 20 cm high: way 0.09589 statures, push 0.26780 m, force 1 + 0.20 / 0.26780 = 1.74682 body weights; lever 0.09438.
        var terms = Mechanics.TermsOf(Standing with { KneeFlexionDeg = 72, ShankLeanDeg = 30, AnkleDorsiflexionDeg = 28, JumpHeightCm = 20, ContactTime = "long" });

        Assert.Equal(0.16486, terms.KneeMoment, 5);
        Assert.Equal(0.69098, terms.LoadedBend, 5);
        Assert.Equal(1, terms.RateClass);
    }

    [Fact]
    public void Standing_upright_asks_nothing_of_the_knee() => Assert.Equal(new TissueLoadTerms(0, 0, 0), Mechanics.TermsOf(Standing));

    [Fact]
    public void A_decline_board_lengthens_the_lever_of_the_same_shank()
    {
        var level = Mechanics.TermsOf(Standing with { KneeFlexionDeg = 90, ShankLeanDeg = 33, AnkleDorsiflexionDeg = 33 });
        var decline = Mechanics.TermsOf(Standing with { KneeFlexionDeg = 90, ShankLeanDeg = 33, AnkleDorsiflexionDeg = 8 });

        Assert.True(decline.KneeMoment > level.KneeMoment);
    }

    [Theory]
    [InlineData(30, 0, 20, 0)]
    [InlineData(0, 30, 0, 20)]
    public void The_higher_the_jump_or_the_drop_the_larger_the_moment(int jump, int drop, int lowerJump, int lowerDrop)
    {
        var deep = Standing with { KneeFlexionDeg = 70, ShankLeanDeg = 28, ContactTime = "long" };

        Assert.True(Mechanics.TermsOf(deep with { JumpHeightCm = jump, DropHeightCm = drop }).KneeMoment > Mechanics.TermsOf(deep with { JumpHeightCm = lowerJump, DropHeightCm = lowerDrop }).KneeMoment);
    }

    [Fact]
    public void The_two_loads_of_a_leg_are_the_body_and_what_it_carries() =>
        Assert.Equal(1.5 * Mechanics.TermsOf(Standing with { KneeFlexionDeg = 90 }).LoadedBend, Mechanics.TermsOf(Standing with { KneeFlexionDeg = 90, ExternalLoadShare = 0.5m }).LoadedBend, 9);

    [Fact]
    public void Every_contact_time_of_the_catalogue_has_a_rate_class() =>
        Assert.All(TestEdition.Current.Catalogue.TissueLoadModels, m => Assert.All(TestEdition.Current.Catalogue.Exercises, e => Assert.True(m.Mechanics.RateByContact.ContainsKey(e.Facts.ContactTime))));
}
