using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Requests;

/// <summary>What is read into a complaint, and what the athlete's facts give beside it.</summary>
public sealed class ComplaintReadingTests
{
    private static readonly RequestBuilder Adult = RequestBuilder.For().Aged(24, 4);
    private static readonly PainRules Pain = TestEdition.Knowledge.Pain;

    [Fact]
    public void Mornings_and_trend_raise_the_pain_that_counts_and_never_past_their_caps()
    {
        Assert.Equal(2, Of(Tendon(2)).EffectivePain);
        Assert.Equal(2 + Pain.WorseMorning.AddsPain, Of(Tendon(2) with { Mornings = ["worse", "same"] }).EffectivePain);
        Assert.Equal(2, Of(Tendon(2) with { Mornings = ["same", "worse"] }).EffectivePain);
        Assert.Equal(2 + Pain.RisingTrend.AddsPain, Of(Tendon(2) with { Trend = "rising" }).EffectivePain);
        Assert.Equal(2 + Pain.WorseMorning.AddsPain + Pain.RisingTrend.AddsPain, Of(Tendon(2) with { Trend = "rising", NextMorning = "worse" }).EffectivePain);
        Assert.Equal(Pain.WorseMorning.AtMost, Of(Tendon(4) with { Trend = "rising", NextMorning = "worse" }).EffectivePain);
        Assert.Equal(7, Of(Tendon(7) with { Trend = "rising" }).EffectivePain);
        Assert.Equal(2, Of(Tendon(2) with { Trend = "falling", Mornings = ["settled"] }).EffectivePain);
    }

    [Theory]
    [InlineData(1, false, "worse")]
    [InlineData(2, true, "worse", "worse")]
    [InlineData(1, false, "worse", "same", "worse")]
    [InlineData(0, false, "same", "worse", "worse")]
    public void Only_mornings_running_up_to_the_latest_count(int running, bool refers, params string[] mornings)
    {
        Assert.True(running >= Pain.WorseMornings.RefersAfter == refers);
        Assert.Equal(refers, Of(Tendon(2) with { Mornings = mornings }).WorseMorningsRunning);
    }

    [Theory]
    [InlineData(0, LoadingStage.SlowHeavy)]
    [InlineData(3, LoadingStage.SlowHeavy)]
    [InlineData(4, LoadingStage.Isometric)]
    [InlineData(5, LoadingStage.Isometric)]
    public void Without_a_stage_pain_says_which_and_never_one_that_asks_for_tests(int pain, LoadingStage expected)
    {
        var sore = Assert.Single(Of(Tendon(pain)).Stands);
        Assert.Equal(expected, sore.Stage!.Stage);
        Assert.False(sore.StageBinds);
        Assert.True(sore.FollowsProgramme);
    }

    [Theory]
    [InlineData("slow-heavy", 4, LoadingStage.SlowHeavy)]
    [InlineData("slow-heavy", 5, LoadingStage.Isometric)]
    [InlineData("energy-storage", 3, LoadingStage.EnergyStorage)]
    [InlineData("return", 2, LoadingStage.EnergyStorage)]
    [InlineData("return", 0, LoadingStage.Return)]
    [InlineData("isometric", 0, LoadingStage.Isometric)]
    public void A_stage_that_was_sent_stands_as_long_as_pain_allows(string sent, int pain, LoadingStage expected)
    {
        var sore = Assert.Single(Of(Tendon(pain) with { Stage = sent }).Stands);
        Assert.Equal(expected, sore.Stage!.Stage);
        Assert.True(sore.StageBinds);
    }

    [Fact]
    public void Pain_that_rises_week_by_week_goes_back_a_stage() =>
        Assert.Equal(LoadingStage.SlowHeavy, Of(Tendon(1) with { Stage = "energy-storage", Trend = "rising" }).Stands[0].Stage!.Stage);

    [Fact]
    public void A_restriction_keeps_an_earlier_stage_on_its_side()
    {
        var request = Adult.Complaining(Tendon(1) with { Stage = "return", Side = "left" }).Restricted(new Restriction { Region = "patellar-tendon", Side = "left", Stage = "slow-heavy" });
        Assert.Equal(LoadingStage.SlowHeavy, Situation(request).Complaints[0].Stands[0].Stage!.Stage);
        Assert.Equal(LoadingStage.Return, Situation(request.LastComplaint(c => c with { Side = "right" })).Complaints[0].Stands[0].Stage!.Stage);
    }

    [Fact]
    public void A_knee_follows_the_programmes_of_tendon_and_joint()
    {
        var stands = Of(new Complaint { Region = "knee", Pain = 3 }).Stands;
        Assert.Equal(["patellar-tendon", "patellofemoral"], stands.Select(s => s.Region.Id));
        Assert.All(stands, s => Assert.NotNull(s.Stage));
    }

    [Theory]
    [InlineData("bone")]
    [InlineData("muscle")]
    [InlineData("nerve")]
    [InlineData("unknown")]
    public void A_tissue_that_a_programme_is_not_for_is_not_dosed_by_it(string tissue) => Assert.False(Of(Tendon(2) with { Tissue = tissue }).Stands[0].FollowsProgramme);

    [Fact]
    public void What_is_examined_first_follows_no_programme()
    {
        Assert.False(Of(Tendon(2) with { RedFlags = ["pop-or-gap"] }).Stands[0].FollowsProgramme);
        Assert.False(Of(Tendon(2) with { Onset = "sudden", DaysSinceOnset = 1 }).Stands[0].FollowsProgramme);
        Assert.False(Of(Tendon(2) with { Mornings = ["worse", "worse"] }).Stands[0].FollowsProgramme);
    }

    [Theory]
    [InlineData(null, true)]
    [InlineData(0, true)]
    [InlineData(3, true)]
    [InlineData(4, false)]
    public void A_sudden_onset_is_acute_up_to_three_days_and_when_no_one_says_since_when(int? days, bool acute)
    {
        Assert.Equal(acute, Of(Tendon(2) with { Onset = "sudden", DaysSinceOnset = days }).Acute);
        Assert.False(Of(Tendon(2) with { Onset = "gradual", DaysSinceOnset = days }).Acute);
    }

    [Fact]
    public void A_sudden_onset_without_a_day_is_taken_as_today_and_said() =>
        Assert.Contains(Situation(Adult.Complaining(Tendon(2) with { Onset = "sudden" })).Assumed, a => a.Pointer == "/complaints/0/daysSinceOnset" && a.Value is 0);

    [Fact]
    public void The_latest_of_the_mornings_stands_for_the_next_morning()
    {
        Assert.DoesNotContain(Situation(Adult.Complaining(Tendon(2) with { Mornings = ["same"] })).Assumed, a => a.Pointer.EndsWith("nextMorning", StringComparison.Ordinal));
        Assert.Contains(Situation(Adult.Complaining(Tendon(2) with { Mornings = [] })).Assumed, a => a.Pointer == "/complaints/0/nextMorning");
    }

    [Fact]
    public void Soreness_that_lasts_longer_than_soreness_does_is_pain()
    {
        var thigh = new Complaint { Region = "quadriceps", Pain = 6, Kind = "soreness" };
        Assert.True(Of(thigh).Soreness);
        Assert.True(Of(thigh with { DaysSinceOnset = Pain.Soreness.LastsAtMostDays }).Soreness);
        Assert.False(Of(thigh with { DaysSinceOnset = Pain.Soreness.LastsAtMostDays + 1 }).Soreness);
        Assert.Equal(Pain.Soreness.ReadAtMost, Of(thigh).Stands[0].Pain);
        Assert.Equal(6, Of(thigh with { Region = "shin-bone" }).Stands[0].Pain);
    }

    [Fact]
    public void A_growing_athlete_has_growth_plates_and_no_programme()
    {
        var young = Situation(RequestBuilder.For().Aged(14, 1).Complaining(Tendon(2)));
        Assert.True(young.Young);
        Assert.Contains(young.Complaints[0].Stands[0].Tissues, t => t.Id == TissueRule.GrowthPlate);
        Assert.False(young.Complaints[0].Stands[0].FollowsProgramme);
        var spurt = Situation(Adult.Athlete(a => a with { GrowthSpurt = true }).Complaining(Tendon(2)));
        Assert.True(spurt.Young);
        Assert.False(Situation(Adult.Complaining(Tendon(2))).Young);
    }

    [Theory]
    [InlineData(0.2, "injury", null, null)]
    [InlineData(1.0, "break", 0.8, 1)]
    [InlineData(1.0, "illness", 0.6, 2)]
    [InlineData(4.0, "break", 0.5, 4)]
    [InlineData(4.0, "injury", 0.4, 5)]
    [InlineData(30.0, "break", 0.4, 6)]
    public void Time_off_cuts_volume_first_and_ramps_over_weeks_without_failure(double weeks, string reason, double? share, int? ramp)
    {
        // Common practice, no source.
        var layoff = Situation(Adult.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = (decimal)weeks, Reason = reason } })).Layoff;
        Assert.Equal((decimal?)share, layoff?.VolumeShare);
        Assert.Equal(ramp, layoff?.WeeksOfRamp);
        Assert.NotEqual(false, layoff?.NoFailure);
    }

    [Fact]
    public void More_weeks_off_never_give_more_volume_or_a_shorter_ramp()
    {
        foreach (var reason in new[] { "break", "illness", "injury" })
        {
            var by = Enumerable.Range(0, 120).Select(w => Situation(Adult.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = w / 4m, Reason = reason } })).Layoff).ToList();
            Assert.All(by.Zip(by.Skip(1)), x => Assert.True((x.Second?.VolumeShare ?? 1) <= (x.First?.VolumeShare ?? 1) && (x.Second?.WeeksOfRamp ?? 0) >= (x.First?.WeeksOfRamp ?? 0)));
        }
    }

    [Fact]
    public void A_reason_that_is_left_out_is_taken_as_the_strictest()
    {
        var situation = Situation(Adult.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 4 } }));
        Assert.Contains(situation.Assumed, a => a is { Pointer: "/athlete/layoff/reason", Value: "injury" });
        Assert.Equal(0.4m, situation.Layoff!.VolumeShare);
    }

    [Fact]
    public void A_clearance_holds_for_its_days_and_keeps_the_dose_for_the_clinician()
    {
        var days = TestEdition.Knowledge.Returning.Clearances.Single(c => c.Flag == "pregnancy").ValidDays;
        Assert.True(Situation(Adult.Cleared("pregnancy", days)) is { NoAutomaticDose: true } fresh && fresh.IsCleared("pregnancy"));
        Assert.True(Situation(Adult.Cleared("pregnancy", days + 1)) is { NoAutomaticDose: false } stale && !stale.IsCleared("pregnancy"));
        Assert.True(Situation(Adult.Cleared("pregnancy", days + 1).Cleared("pregnancy", 2)).IsCleared("pregnancy"));
        Assert.False(Situation(Adult).NoAutomaticDose);
    }

    private static Complaint Tendon(int pain) => new() { Region = "patellar-tendon", Pain = pain };

    private static ResolvedComplaint Of(Complaint complaint) => Situation(Adult.Complaining(complaint)).Complaints[0];

    private static Situation Situation(RecommendationRequest request)
    {
        Assert.Empty(RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge));
        return Domain.Requests.Situation.Of(request, TestEdition.Current);
    }
}
