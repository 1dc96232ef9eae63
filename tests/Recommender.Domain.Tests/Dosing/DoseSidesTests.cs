using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

public sealed class DoseSidesTests
{
    private const string StepDown = "loaded-rear-foot-elevated-split-squat";

    [Fact]
    public void The_sore_side_has_its_own_dose_and_the_other_keeps_the_usual()
    {
        var sore = Dose(RequestBuilder.Skilled().Sore("patellar-tendon", 3, side: "left"));
        var usual = Dose(RequestBuilder.Skilled());
        Assert.NotNull(sore.Sides);
        Assert.Equal(sore with { Sides = null }, sore.Sides.Left);
        Assert.Equal((usual.Sets, usual.Amount, usual.Intensity), (sore.Sides.Right.Sets, sore.Sides.Right.Amount, sore.Sides.Right.Intensity));
        Assert.NotEqual((usual.Sets, usual.Amount, usual.RestSeconds, usual.Progression), (sore.Sets, sore.Amount, sore.RestSeconds, sore.Progression));
    }

    [Fact]
    public void Both_sides_sore_have_one_dose() => Assert.Null(Dose(RequestBuilder.Skilled().Sore("patellar-tendon", 3)).Sides);

    [Fact]
    public void Two_legs_together_have_one_dose() => Assert.Null(Dose(RequestBuilder.Skilled().Sore("patellar-tendon", 3, side: "left"), "back-squat").Sides);

    /// <summary>Two tests show the left leg weaker: one set more for it, in the best pick that serves it and in no other.</summary>
    [Fact]
    public void A_weaker_side_gets_one_extra_set_in_one_pick()
    {
        var tests = new TestResults { SingleHopCm = new(160, 190), SingleLegJumpCm = new(21, 26), Trials = 3 };
        var answer = Stages.Answer(RequestBuilder.Skilled("distance", "general-preparation").Tested(tests));
        var pick = Assert.Single(answer.Picks, p => p.Dose!.Adjustments.Any(a => a.Code == "extra-set"));
        Assert.NotNull(pick.Dose!.Sides);
        Assert.Equal(pick.Dose!.Sides.Right.Sets + 1, pick.Dose!.Sides.Left.Sets);
        Assert.Equal(pick.Dose!.Sides.Left.Sets, pick.Dose!.Sets);
        Assert.DoesNotContain(Stages.Answer(RequestBuilder.Skilled("distance", "taper").Tested(tests)).Picks, p => p.Dose!.Sides is not null);
    }

    private static Dose Dose(RequestBuilder request, string exercise = StepDown)
    {
        var stages = Stages.Of(request);
        var position = stages.Catalogue.PositionOf(exercise);
        return new DoseCalculator(stages.Situation, stages.Profile).Next(position, stages.Needs.PurposeOf(stages.Catalogue, position), []);
    }
}
