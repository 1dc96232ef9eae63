using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility;

/// <summary>Which course, tissue and sign of a complaint sends the athlete to a clinician, and which does not.</summary>
public sealed class ComplaintCourseTests
{
    private static readonly RequestBuilder Athlete = RequestBuilder.Skilled().WeeksOut(20);

    /// <summary>The next morning pain must have subsided, up to 5 it is allowed: Silbernagel KG et al., Am J Sports Med 2007, doi 10.1177/0363546506298279 (read in a secondary text). Two mornings are ours.</summary>
    [Fact]
    public void One_worse_morning_cuts_and_two_running_refer_the_region_alone()
    {
        var once = Stages.Of(Athlete.Complaining(new Complaint { Region = "achilles-calf", Pain = 2, Mornings = ["worse", "settled"] })).Limits;
        Assert.Null(once.Referral);
        var answer = Stages.Answer(Athlete.Complaining(new Complaint { Region = "achilles-calf", Pain = 2, Mornings = ["worse", "worse"] }));
        Assert.Equal(["achilles-calf"], answer.Referral!.Regions);
        Assert.Contains("rest of the body may be trained", answer.Referral.Advice, StringComparison.Ordinal);
        Assert.NotEmpty(answer.Picks);
    }

    /// <summary>Worked decisions read in a text, of the same source: 4 with the usual morning goes on, 5 with a raised morning is cut, 6 stops.</summary>
    [Fact]
    public void The_worked_decisions_of_the_pain_monitoring_model_hold()
    {
        var four = Of(4, "settled");
        Assert.Null(four.Limits.Referral);
        Assert.NotEmpty(Achilles(four));
        var five = Of(5, "worse");
        Assert.Null(five.Limits.Referral);
        Assert.True(Achilles(five).IsProperSubsetOf(Achilles(four)));
        var six = Of(6, "settled");
        Assert.NotNull(six.Limits.Referral);
        Assert.Empty(Achilles(six));

        static Stages Of(int pain, string morning) => Stages.Of(Athlete.Complaining(new Complaint { Region = "achilles-calf", Pain = pain, NextMorning = morning }));
        static HashSet<string> Achilles(Stages stages) => [.. stages.EligibleIds().Where(id => TestEdition.Exercise(id).TissueLoad.TryGetValue("achilles-calf", out var load) && load.High > 1)];
    }

    /// <summary>
    /// Progress below 4 of 10, hold above it: J Orthop Surg Res 2019 protocol, table 1, doi 10.1186/s13018-019-1477-2; jump work at pain under 4: Malliaras P et al. 2015 (secondary text).
    /// Below 3 of 10 for heavy slow work from 15RM on, below 1 for full sport: Rosen AB et al. 2022, PMC9528703, table 2.
    /// </summary>
    [Fact]
    public void Stages_of_the_patellar_tendon_stay_inside_the_published_pain()
    {
        var stages = TestEdition.Knowledge.ProgrammeOf("patellar-tendon")!.Stages;
        Assert.All(stages, s => Assert.True(s.StayMaxPain <= 5));
        Assert.True(stages[1].EntryMaxPain < 4);
        Assert.True(stages[2].StayMaxPain < 4);
        Assert.True(stages[2].EntryMaxPain < 3);
        Assert.True(stages[3].EntryMaxPain < 1);
    }

    /// <summary>Start run-throughs when the hop hurts less than 1 to 2: Nutrients 2019;11(1):76, table A2, doi 10.3390/nu11010076.</summary>
    [Theory]
    [InlineData("achilles-calf")]
    [InlineData("achilles-insertion")]
    public void Hops_come_back_to_a_heel_tendon_at_pain_two_at_most(string region) => Assert.True(TestEdition.Knowledge.ProgrammeOf(region)!.Stages[2].StayMaxPain <= 2);

    /// <summary>Runners keep a sore kneecap joint at or under 2: Esculier JF et al., PMC7740062.</summary>
    [Fact]
    public void Landings_come_back_to_a_kneecap_joint_at_pain_two_at_most() => Assert.True(TestEdition.Knowledge.ProgrammeOf("patellofemoral")!.Stages[2].StayMaxPain <= 2);

    /// <summary>Groin above 3 means an easier variant: Br J Sports Med 2023;57:83-90, table 1, doi 10.1136/bjsports-2022-105890; the hardest level under pain 3: Haroy J et al. 2019, doi 10.1136/bjsports-2017-098937.</summary>
    [Fact]
    public void A_groin_gets_the_long_lever_below_three_and_an_easier_one_above()
    {
        var stages = TestEdition.Knowledge.ProgrammeOf("adductor-groin")!.Stages;
        Assert.True(stages[2].StayMaxPain < 3);
        Assert.DoesNotContain("copenhagen-adduction", Stages.Of(Athlete.Complaining(new Complaint { Region = "adductor-groin", Pain = 4, Stage = "return" })).EligibleIds());
        Assert.Contains("adductor-squeeze-hold", Stages.Of(Athlete.Complaining(new Complaint { Region = "adductor-groin", Pain = 4, Stage = "return" })).EligibleIds());
    }

    [Theory]
    [InlineData("hip", "same-day")]
    [InlineData("adductor-groin", "same-day")]
    [InlineData("shin-bone", "within-days")]
    [InlineData("foot", "within-days")]
    [InlineData("patellar-tendon", "within-days")]
    public void Suspected_bone_stops_landings_on_either_leg_and_is_referred(string region, string urgency)
    {
        // Stop running and jumping, refer; neck of the thigh bone urgently: Alonso, Hoenig et al., Aspetar Sports Med J vol. 13, and Hoenig et al. 2022 (secondary texts). The urgency of the groin is ours.
        var answer = Stages.Answer(Athlete.Complaining(new Complaint { Region = region, Side = "left", Pain = 1, Tissue = "bone" }).Count(30));
        Assert.Equal(urgency, answer.Referral!.Urgency);
        Assert.Contains(region, answer.Referral.Regions);
        Assert.All(answer.Picks, p => Assert.NotEqual(LoadingRate.Impact, p.Exercise.LoadingRate));
        Assert.Contains(answer.Limits, l => l.Region == region && l.Side == Side.Both && l.LoadingRate == LoadingRate.Impact);
        var stages = Stages.Of(Athlete.Complaining(new Complaint { Region = region, Side = "left", Pain = 1, Tissue = "bone" }));
        Assert.DoesNotContain(stages.EligibleIds(), id => TestEdition.Exercise(id).LoadingRate == LoadingRate.Impact);
    }

    [Theory]
    [InlineData("bone-tenderness")]
    [InlineData("bony-tenderness-after-injury")]
    [InlineData("cannot-hop")]
    public void A_sign_of_bone_stops_landings_as_suspected_bone_does(string flag) =>
        Assert.True(Stages.Of(Athlete.Sore("ankle", 1, redFlags: flag)).Limits.NoImpact);

    [Fact]
    public void Bone_of_an_arm_does_not_keep_the_legs_from_landing()
    {
        var limits = Stages.Of(Athlete.Complaining(new Complaint { Region = "wrist", Pain = 1, Tissue = "bone" })).Limits;
        Assert.False(limits.NoImpact);
        Assert.Equal(["wrist"], limits.Referral!.Regions);
    }

    /// <summary>High-risk sites: neck of the thigh bone, front of the shin, navicular, fifth metatarsal, inner ankle, talus; no impact, urgent review: Hoenig et al. 2022 and other reviews (secondary text).</summary>
    [Theory]
    [InlineData("hip")]
    [InlineData("shin-bone")]
    [InlineData("foot")]
    [InlineData("ankle")]
    public void A_high_risk_site_with_bone_tenderness_lands_on_nothing_and_is_reviewed(string region)
    {
        var stages = Stages.Of(Athlete.Sore(region, 0, redFlags: "bone-tenderness"));
        Assert.Contains(region, stages.Limits.Referral!.Regions);
        Assert.DoesNotContain(stages.EligibleIds(), id => TestEdition.Exercise(id).LoadingRate == LoadingRate.Impact);
    }

    /// <summary>Signs after an acute knee injury that ask for an image: Stiell IG et al., Ann Emerg Med 1995, doi 10.1016/S0196-0644(95)70106-0 (secondary text): stop, examined the same day.</summary>
    [Theory]
    [InlineData("bony-tenderness-after-injury")]
    [InlineData("cannot-bend-knee-90")]
    [InlineData("cannot-bear-weight")]
    public void A_knee_with_a_sign_of_fracture_is_examined_the_same_day_and_not_loaded(string flag)
    {
        var stages = Stages.Of(Athlete.Sore("knee", 1, redFlags: flag));
        Assert.True(stages.Limits.Referral!.Urgency is "same-day" or "emergency", stages.Limits.Referral.Urgency);
        Assert.All(stages.EligibleIds(), id => Assert.All(["patellar-tendon", "patellofemoral"], region =>
            Assert.True((ExerciseCatalogue.LoadOn(TestEdition.Exercise(id), TestEdition.Vocabulary.Regions.Find(region)!)?.High ?? 0) <= TestEdition.Knowledge.Pain.SparedLoad.Value, id)));
    }

    [Theory]
    [InlineData("quadriceps")]
    [InlineData("hamstring")]
    [InlineData("achilles-calf")]
    [InlineData("lower-back")]
    [InlineData("chest")]
    public void Sore_muscle_after_training_is_lightened_and_not_referred(string region)
    {
        var sore = Stages.Of(Athlete.Complaining(new Complaint { Region = region, Pain = 9, Kind = "soreness", DaysSinceOnset = 2, Mornings = ["worse", "worse"] }));
        Assert.Null(sore.Limits.Referral);
        Assert.Contains(sore.Limits.Limits, l => l.MaxTissueLoad < 10);
        Assert.NotNull(Stages.Of(Athlete.Complaining(new Complaint { Region = region, Pain = 9, Kind = "pain" })).Limits.Referral);
        Assert.DoesNotContain(sore.Profile.Needs.SelectMany(n => n.From), f => f.Source == "complaint");
    }

    [Fact]
    public void Sore_bone_or_joint_is_held_as_pain_is_and_says_so()
    {
        var sore = Stages.Of(Athlete.Complaining(new Complaint { Region = "shin-bone", Pain = 5, Kind = "soreness" })).Limits;
        var pain = Stages.Of(Athlete.Complaining(new Complaint { Region = "shin-bone", Pain = 5 })).Limits;
        Assert.Null(sore.Referral);
        Assert.NotNull(pain.Referral);
        Assert.Equal(TestEdition.Knowledge.PainLimitOf("shin-bone")!.MaxTissueLoad[LoadingRate.Slow][5], Stages.LimitOn(sore.Limits, "shin-bone", LoadingRate.Slow));
        Assert.Contains(sore.Cautions, c => c.Contains("looked at", StringComparison.Ordinal));
    }

    [Fact]
    public void A_red_flag_refers_whatever_else_is_said_of_soreness() => Assert.NotNull(Stages.Of(Athlete.Complaining(new Complaint { Region = "quadriceps", Pain = 2, Kind = "soreness", RedFlags = ["pop-or-gap"] })).Limits.Referral);

    [Theory]
    [InlineData("patellar-tendon", 3)]
    [InlineData("heel-plantar", 3)]
    [InlineData("hip", 3)]
    [InlineData("elbow", 3)]
    public void A_growth_plate_is_examined_earlier_and_treated_as_one(string region, int pain)
    {
        // Common practice, no source.
        var young = Stages.Of(RequestBuilder.Skilled().Aged(13, 2).WeeksOut(20).Sore(region, pain)).Limits;
        Assert.NotNull(young.Referral);
        Assert.Contains(young.Cautions, c => c.Contains("treated as the growth plate", StringComparison.Ordinal));
        var spurt = Stages.Of(RequestBuilder.Skilled().Aged(17, 2).Athlete(a => a with { GrowthSpurt = true }).Sore(region, pain)).Limits;
        Assert.NotNull(spurt.Referral);
        Assert.Contains(TestEdition.Knowledge.Pain.Youth.SpurtNote, spurt.Cautions);
    }

    /// <summary>A qualified adult is there, technique before load: Lloyd RS et al. 2014, doi 10.1136/bjsports-2013-092952 (secondary text).</summary>
    [Fact]
    public void A_growing_athlete_without_an_adult_beside_is_told_so()
    {
        Assert.Contains(TestEdition.Knowledge.Pain.Youth.UnsupervisedNote, Stages.Of(RequestBuilder.For().Aged(13).Athlete(a => a with { Supervised = false })).Limits.Cautions);
        Assert.DoesNotContain(TestEdition.Knowledge.Pain.Youth.UnsupervisedNote, Stages.Of(RequestBuilder.For().Aged(13).Athlete(a => a with { Supervised = true })).Limits.Cautions);
        Assert.DoesNotContain(TestEdition.Knowledge.Pain.Youth.UnsupervisedNote, Stages.Of(RequestBuilder.For().Aged(30).Athlete(a => a with { Supervised = false })).Limits.Cautions);
    }

    [Fact]
    public void An_unknown_tissue_is_held_to_the_strictest_and_examined_from_three()
    {
        Assert.Null(Stages.Of(Athlete.Complaining(new Complaint { Region = "patellar-tendon", Pain = 2, Tissue = "unknown" })).Limits.Referral);
        Assert.NotNull(Stages.Of(Athlete.Complaining(new Complaint { Region = "patellar-tendon", Pain = 3, Tissue = "unknown" })).Limits.Referral);
        var limits = Stages.Of(Athlete.Complaining(new Complaint { Region = "patellar-tendon", Pain = 2, Tissue = "unknown" })).Limits.Limits;
        var strictest = TestEdition.Knowledge.Pain.Limits.Where(l => l.Id is "bone-first" or "high-risk-bone" or "hamstring" or "ankle" or "patellar-tendon").Min(l => l.MaxTissueLoad[LoadingRate.Impact][2]);
        Assert.Equal(strictest, Stages.LimitOn(limits, "patellar-tendon", LoadingRate.Impact));
    }

    [Fact]
    public void Lasting_limitations_are_answered_plainly_and_nothing_is_guessed()
    {
        var answer = Stages.Answer(Athlete.Athlete(a => a with { Limitations = ["left leg below the knee qq-text"] }));
        Assert.Equal(AnswerStatus.Referred, answer.Status);
        Assert.Empty(answer.Picks);
        Assert.Contains("not served yet", answer.Referral!.Reasons[0].Text, StringComparison.Ordinal);
        Assert.Contains("choose together", answer.Referral.Advice, StringComparison.Ordinal);
        Assert.DoesNotContain(answer.Cautions.Concat(answer.Referral.Reasons.Select(r => r.Text)), t => t.Contains("qq-text", StringComparison.Ordinal));
        Assert.Equal(AnswerStatus.Answered, Stages.Answer(Athlete.Athlete(a => a with { Limitations = [] })).Status);
    }

    [Fact]
    public void Time_off_is_told_in_words()
    {
        var cautions = Stages.Answer(Athlete.Athlete(a => a with { Layoff = new LayoffFacts { Weeks = 5, Reason = "injury" } })).Cautions;
        Assert.Contains(cautions, c => c.Contains("two fifths of the usual volume", StringComparison.Ordinal) && c.Contains("No set goes to failure", StringComparison.Ordinal));
    }

    [Fact]
    public void A_knee_takes_the_stricter_of_tendon_and_joint_in_every_stage()
    {
        foreach (var stage in TestEdition.Vocabulary.LoadingStages)
        {
            foreach (var pain in Enumerable.Range(0, 6))
            {
                var knee = Stages.Of(Athlete.Complaining(new Complaint { Region = "knee", Pain = pain, Stage = stage.Id }));
                var tendon = Stages.Of(Athlete.Complaining(new Complaint { Region = "patellar-tendon", Pain = pain, Stage = stage.Id }));
                var joint = Stages.Of(Athlete.Complaining(new Complaint { Region = "patellofemoral", Pain = pain, Stage = stage.Id }));
                Assert.True(OfPain(knee).SetEquals(OfPain(tendon).Intersect(OfPain(joint))));
            }
        }

        static HashSet<int> OfPain(Stages stages) => [.. Enumerable.Range(0, TestEdition.Current.Catalogue.Count)
            .Where(e => !EligibilityFilter.Gates.Any(g => g.Reason is "tissue-load" or "provocation" or "red-flag-spared" && g.Asks(stages.GateContext) && g.Refuses(stages.GateContext, e)))];
    }
}
