using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

/// <summary>Doses of a sore region follow the stage of its programme; the day's shares still hold.</summary>
public sealed class ProgrammeDoseTests
{
    /// <summary>5 x 45 s holds for a patellar tendon: Rio et al. 2015 as quoted; the dose itself is recalled there. 4 sets of slow heavy work to 3 or 4 times 6 to 15: Kongsgaard et al. 2009.</summary>
    [Fact]
    public void A_sore_patellar_tendon_is_dosed_by_its_stage()
    {
        var hold = Dose(RequestBuilder.Skilled().Sore("patellar-tendon", 4, side: "left"), "spanish-squat-hold");
        Assert.Equal("programme", hold.Adjustments[0].Code);
        Assert.InRange(hold.Sets, 4, 5);
        Assert.InRange(hold.Amount, 30, 60);
    }

    [Fact]
    public void What_hardly_loads_the_sore_region_keeps_its_usual_dose()
    {
        foreach (var exercise in new[] { "copenhagen-adduction", "forefoot-split-hold" })
        {
            Assert.DoesNotContain(Dose(RequestBuilder.Skilled().Sore("patellar-tendon", 4, side: "left"), exercise).Adjustments, a => a.Code == "programme");
        }
    }

    [Fact]
    public void A_growing_athlete_gets_no_adult_programme_and_no_percentage()
    {
        foreach (var request in new[] { RequestBuilder.Skilled().Aged(15, 3), RequestBuilder.Skilled().Aged(17, 3).Athlete(a => a with { GrowthSpurt = true }) })
        {
            var answer = Stages.Answer(request.Sore("patellar-tendon", 2).Count(12));
            Assert.All(answer.Picks, p => Assert.True(p.Dose!.Intensity.Kind != "percent-1rm" && p.Dose.Adjustments.All(a => a.Code != "programme"), $"{p.Exercise.Id}: {p.Dose}"));
        }
    }

    [Fact]
    public void Time_off_cuts_the_sets_and_says_how_long()
    {
        var usual = Dose(RequestBuilder.Skilled("throws", "general-preparation"), "back-squat");
        var back = Dose(RequestBuilder.Skilled("throws", "general-preparation").Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 4, Reason = "illness" } }), "back-squat");
        Assert.True(back.Sets < usual.Sets, $"{usual.Sets} sets become {back.Sets}.");
        Assert.Contains("five weeks", Assert.Single(back.Adjustments, a => a.Code == "layoff").Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Within_a_clearance_nothing_is_dosed()
    {
        var answer = Stages.Answer(RequestBuilder.Skilled().Flagged("recent-birth").Athlete(a => a with { Sex = "female", Clearances = [new Clearance { Flag = "recent-birth", By = "midwife", DaysAgo = 5 }] }));
        Assert.NotEmpty(answer.Picks);
        Assert.All(answer.Picks, p => Assert.Null(p.Dose));
    }

    private static Dose Dose(RequestBuilder request, string exercise)
    {
        var stages = Stages.Of(request);
        var position = stages.Catalogue.PositionOf(exercise);
        return new DoseCalculator(stages.Situation, stages.Profile).Next(position, stages.Needs.PurposeOf(stages.Catalogue, position), []);
    }
}
