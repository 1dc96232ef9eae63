using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class WithinRestrictionTests
{
    private static readonly RequestBuilder Athlete = RequestBuilder.Skilled().WeeksOut(20);

    [Fact]
    public void Asks_nothing_when_nothing_was_written() => GateVerifier.Of<WithinRestriction>().Given(RequestBuilder.For().Sore("hip", 2)).HasNothingToAsk();

    [Fact]
    public void Refuses_above_the_load_that_was_written_and_passes_at_it()
    {
        Verify(new Restriction { Region = "hip", Side = "left", MaxTissueLoad = 3 }, ExerciseBuilder.Named().Loads("hip", 2, high: 3.1m)).Refuses(3m, 3.1m, "the clinician allowed the hip joint 3.1");
        Verify(new Restriction { Region = "hip", Side = "left", MaxTissueLoad = 3 }, ExerciseBuilder.Named().Loads("hip", 3)).Passes();
    }

    [Theory]
    [InlineData(LoadingRate.Slow, true)]
    [InlineData(LoadingRate.Fast, false)]
    [InlineData(LoadingRate.Impact, false)]
    public void Refuses_faster_loading_than_was_written_unless_it_spares_the_region(LoadingRate rate, bool passes)
    {
        var written = new Restriction { Region = "hip", MaxLoadingRate = "slow" };
        var spared = TestEdition.Knowledge.Pain.SparedLoad.Value;
        Verify(written, ExerciseBuilder.Named().At(rate).Loads("hip", spared)).Passes();
        var more = Verify(written, ExerciseBuilder.Named().At(rate).Loads("hip", spared + 0.1m));
        if (passes)
        {
            more.Passes();
        }
        else
        {
            more.Refuses(spared, spared + 0.1m, "the clinician allowed");
        }
    }

    [Fact]
    public void No_impact_ends_every_landing_on_the_region_and_nothing_else()
    {
        var written = new Restriction { Region = "shin-bone", NoImpact = true };
        Verify(written, ExerciseBuilder.Named().At(LoadingRate.Impact).Loads("shin-bone", 4)).Refuses(0.6m, 4m, "shin bone");
        Verify(written, ExerciseBuilder.Named().At(LoadingRate.Fast).Loads("shin-bone", 4)).Passes();
    }

    [Fact]
    public void A_stage_that_was_written_holds_as_the_stage_does_without_any_complaint()
    {
        var written = new Restriction { Region = "patellar-tendon", Stage = "slow-heavy" };
        var most = TestEdition.Knowledge.ProgrammeOf("patellar-tendon", Domain.Knowledge.LoadingStage.SlowHeavy)!.MaxTissueLoad[LoadingRate.Impact];
        Verify(written, ExerciseBuilder.Named().At(LoadingRate.Impact).Loads("patellar-tendon", most + 0.1m)).Refuses(most, most + 0.1m, "patellar");
        Verify(written, ExerciseBuilder.Named().At(LoadingRate.Slow).Loads("patellar-tendon", 9)).Passes();
    }

    [Fact]
    public void A_knee_is_restricted_as_tendon_and_as_joint()
    {
        var written = new Restriction { Region = "knee", MaxTissueLoad = 2 };
        Verify(written, ExerciseBuilder.Named().Loads("patellar-tendon", 2.1m)).Refuses(2m, 2.1m, "patellar");
        Verify(written, ExerciseBuilder.Named().Loads("patellofemoral", 2.1m)).Refuses(2m, 2.1m, "kneecap");
    }

    [Fact]
    public void The_strictest_of_rule_and_restriction_stands_in_the_limits()
    {
        var limits = Stages.Of(Athlete.Sore("hip", 2, "left").Restricted(new Restriction { Region = "hip", Side = "left", MaxTissueLoad = 3 })).Limits.Limits;
        var rule = TestEdition.Knowledge.PainLimitOf("hip")!;
        Assert.Equal(Enum.GetValues<LoadingRate>().Select(r => Math.Min(3, rule.MaxTissueLoad[r][2])), limits.Select(l => l.MaxTissueLoad));
    }

    [Theory]
    [InlineData(14, "Its review is in 14 days.")]
    [InlineData(1, "Its review is in 1 day.")]
    [InlineData(0, "Its review is today.")]
    [InlineData(-5, "overdue by 5 days: it is kept")]
    [InlineData(null, "No review is known")]
    public void A_review_is_told_and_an_overdue_one_is_kept(int? days, string says)
    {
        var request = Athlete.Restricted(new Restriction { Region = "hip", Side = "left", MaxTissueLoad = 1, ReviewInDays = days, By = "Dr Nobody" });
        var answer = Stages.Answer(request);
        Assert.Contains(answer.Cautions, c => c.StartsWith("Hip joint, left", StringComparison.Ordinal) && c.Contains(says, StringComparison.Ordinal));
        Assert.DoesNotContain(answer.Cautions, c => c.Contains("Nobody", StringComparison.Ordinal));
        Assert.All(answer.Picks, p => Assert.True((ExerciseCatalogue.LoadOn(TestEdition.Exercise(p.Exercise.Id), TestEdition.Vocabulary.Regions.Find("hip")!)?.High ?? 0) <= 1));
    }

    [Theory]
    [InlineData("pregnancy")]
    [InlineData("recent-birth")]
    [InlineData("recent-surgery")]
    public void A_cleared_flag_is_answered_inside_its_frame_with_cautions_and_without_one_it_is_referred(string flag)
    {
        Assert.Equal(AnswerStatus.Referred, Stages.Answer(Athlete.Flagged(flag)).Status);
        var answer = Stages.Answer(Athlete.Flagged(flag).Cleared(flag, 10));
        Assert.Equal(AnswerStatus.Answered, answer.Status);
        Assert.Null(answer.Referral);
        Assert.Contains(answer.Cautions, c => c.Contains("the clinician doses", StringComparison.Ordinal) && c.Contains("without written limits", StringComparison.Ordinal));
        Assert.All(answer.Picks, p => Assert.True(p.Exercise.LoadingRate <= LoadingRate.Slow && TestEdition.Exercise(p.Exercise.Id).LoadBand < LoadBand.Heavy, p.Exercise.Id));
        Assert.Contains(answer.LeftOut.ByReason, r => r.Reason == "clinician-restriction");
    }

    [Fact]
    public void A_lapsed_clearance_is_no_clearance_and_says_so()
    {
        var referral = Stages.Answer(Athlete.Flagged("pregnancy").Cleared("pregnancy", 43)).Referral!;
        Assert.Equal("all", referral.Scope);
        Assert.Contains("43 days old", referral.Reasons[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clearance_of_one_flag_does_not_clear_another() =>
        Assert.Equal(AnswerStatus.Referred, Stages.Answer(Athlete.Flagged("pregnancy", "bleeding-in-pregnancy").Cleared("pregnancy", 3)).Status);

    [Fact]
    public void What_a_clearance_leaves_out_is_explained()
    {
        var context = Stages.Of(Athlete.Cleared("recent-birth", 3)).GateContext;
        var gate = new WithinRestriction();
        var position = TestEdition.Current.Catalogue.PositionOf("drop-jump");
        Assert.True(gate.Refuses(context, position));
        Assert.Equal(("clinician-restriction", "recent birth"), (gate.Explain(context, position).Reason, gate.Explain(context, position).Value));
    }

    private static GateVerifier Verify(Restriction written, Exercise exercise) => GateVerifier.Of<WithinRestriction>().Given(RequestBuilder.For().Restricted(written)).AskedAbout(exercise);
}
