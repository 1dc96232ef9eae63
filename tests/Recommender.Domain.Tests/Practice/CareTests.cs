using Recommender.Domain.Dosing;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Practice;

/// <summary>What a physiotherapist looks for in whole answers. Common practice, no source, unless a source stands beside.</summary>
public sealed class CareTests
{
    [Fact]
    public void What_is_hard_at_body_weight_is_not_done_more_often_since_it_has_no_load()
    {
        var offered = new HashSet<string>(StringComparer.Ordinal);
        foreach (var replaced in new[] { "romanian-deadlift", "single-leg-romanian-deadlift", "back-squat", "bench-press", "leg-press" })
        {
            foreach (var place in new[] { "track", "hotel", "home" })
            {
                foreach (var pick in Swap(replaced, RequestBuilder.Skilled("sprints", "general-preparation").WeeksOut(20).In(place, ["partner"])).Picks)
                {
                    var exercise = TestEdition.Exercise(pick.Exercise.Id);
                    if (exercise.Complexity >= 3 || exercise.SorenessRisk >= 3)
                    {
                        offered.Add(exercise.Id);
                        Assert.True(pick.Dose!.Amount <= 12 && pick.Dose.Adjustments.All(a => a.Code != "carried-over"), $"{exercise.Id} for {replaced}: {pick.Dose.Sets} x {pick.Dose.Amount}");
                    }
                }
            }
        }

        Assert.Contains("nordic-hamstring-lower", offered);
        Assert.True(offered.Count >= 3, string.Join(", ", offered));
    }

    [Theory]
    [InlineData("deadlift", "lower-back", 3)]
    [InlineData("back-squat", "patellar-tendon", 4)]
    [InlineData("overhead-press", "shoulder", 3)]
    [InlineData("loaded-calf-raise", "ankle", 2)]
    public void A_swap_for_pain_never_asks_more_of_what_is_sore_than_its_own_dose(string replaced, string region, int pain)
    {
        RecommendationRequest context = RequestBuilder.Skilled("throws", "general-preparation").WeeksOut(20).Sore(region, pain);
        var own = Stages.Answer(context with { Count = 30 }).Picks.ToDictionary(p => p.Exercise.Id, p => p.Dose!, StringComparer.Ordinal);

        var answer = SubstitutionPipeline.Answer(new SubstitutionRequest { Exercise = replaced, Reason = "pain", Context = context, Count = 12 }, TestEdition.Current, "");

        Assert.NotEmpty(answer.Picks);
        foreach (var pick in answer.Picks.Where(p => Loads(p.Exercise.Id, region)))
        {
            Assert.DoesNotContain(pick.Dose!.Adjustments, a => a.Code == "carried-over");
            Assert.True(!own.TryGetValue(pick.Exercise.Id, out var usual) || pick.Dose.Amount <= usual.Amount, pick.Exercise.Id);
        }
    }

    [Theory]
    [InlineData("recent-birth")]
    [InlineData("pregnancy")]
    public void Within_a_clearance_a_session_sets_no_dose_either(string flag)
    {
        RecommendationRequest context = RequestBuilder.For("distance", "transition").Cleared(flag, 10).Flagged(flag).In("home").InMinutes(30);

        var answer = SessionPipeline.Answer(new SessionRequest { Context = context }, TestEdition.Current, "");

        Assert.NotEmpty(answer.Picks);
        Assert.All(answer.Picks, p => Assert.Null(p.Dose));
        Assert.Equal((0m, 0m), (answer.Minutes, answer.MinutesSaved));
        Assert.All(answer.TissueTotals.Values, t => Assert.Equal((0m, 0m), (t.Left, t.Right)));
    }

    /// <summary>Back pain on arching in a growing athlete is examined for a stress injury of the spine, whatever its strength.</summary>
    [Theory]
    [InlineData(15, null, "back-extension", true)]
    [InlineData(18, null, "back-extension", true)]
    [InlineData(24, null, "back-extension", false)]
    [InlineData(20, true, "back-extension", true)]
    [InlineData(15, null, "back-flexion", false)]
    public void A_growing_back_that_hurts_on_arching_is_referred(int age, bool? spurt, string provokedBy, bool referred)
    {
        RecommendationRequest request = RequestBuilder.For("jumps").Doing("pole-vault").Aged(age, 3).Athlete(a => a with { GrowthSpurt = spurt }).Sore("lower-back", 2).LastComplaint(c => c with { ProvokedBy = [provokedBy] });

        var answer = Stages.Answer(request);

        Assert.Equal(referred, answer.Referral is { Scope: "regions" } referral && referral.Reasons.Any(r => r.Region == "lower-back"));
    }

    [Theory]
    [InlineData("single-leg-pogo")]
    [InlineData("single-leg-countermovement-jump")]
    public void Hard_jumps_on_one_leg_wait_while_an_athlete_grows(string exercise)
    {
        Assert.DoesNotContain(exercise, Eligible(RequestBuilder.For("combined").Aged(13, 2)));
        Assert.DoesNotContain(exercise, Eligible(RequestBuilder.For("combined").Aged(15, 3).Athlete(a => a with { GrowthSpurt = true })));
        Assert.Contains(exercise, Eligible(RequestBuilder.For("combined").Aged(15, 3)));
    }

    /// <summary>48 to 72 hours between sessions of intense jumps: Potach and Chu 2016 (potach-chu-2016).</summary>
    [Theory]
    [InlineData("depth-jump", "single-leg-pogo")]
    [InlineData("depth-jump", "single-leg-countermovement-jump")]
    [InlineData("alternate-leg-bound", "single-leg-pogo")]
    public void The_day_after_intense_jumps_others_wait_too_whatever_their_family(string done, string exercise)
    {
        var athlete = RequestBuilder.Skilled().Doing("triple-jump").WeeksOut(12);

        Assert.DoesNotContain(exercise, Eligible(athlete.Did(done, 1)));
        Assert.Contains(exercise, Eligible(athlete.Did(done, 2)));
        Assert.Contains(exercise, Eligible(athlete.Did("nordic-hamstring-lower", 1)));
    }

    [Theory]
    [InlineData("single-leg-squat")]
    [InlineData("skater-squat")]
    public void A_sore_patellar_tendon_gets_few_slow_repetitions_of_a_full_squat_on_one_leg(string exercise)
    {
        RecommendationRequest request = RequestBuilder.Skilled("combined", "pre-competition").WeeksOut(6).Sore("patellar-tendon", 3, "left").Count(30);
        var stages = Stages.Of(request);
        var position = TestEdition.Current.Catalogue.PositionOf(exercise);

        var dose = new DoseCalculator(stages.Situation, stages.Profile).Next(position, stages.Needs.PurposeOf(stages.Catalogue, position), []);

        Assert.True(dose.Sets <= 3 && dose.Amount <= 6, $"{dose.Sets} x {dose.Amount}");
        Assert.True(dose.Sides is null || dose.Sides.Left.Sets * dose.Sides.Left.Amount <= dose.Sides.Right.Sets * dose.Sides.Right.Amount + 3, "the sore side does more");
    }

    /// <summary>Who is told to hold gets a hold: each stage's own exercises stand in the answer where the gates let one through.</summary>
    [Theory]
    [InlineData("achilles-calf", 5, "worse", "isometric")]
    [InlineData("achilles-calf", 3, "same", "slow-heavy")]
    [InlineData("patellar-tendon", 5, "worse", "isometric")]
    [InlineData("patellar-tendon", 3, "same", "slow-heavy")]
    public void The_stage_that_is_told_is_there_to_be_done(string region, int pain, string nextMorning, string stage)
    {
        RecommendationRequest request = RequestBuilder.For("distance", "general-preparation").Aged(35, 10).WeeksOut(20).In("full-gym").Sore(region, pain, "left", nextMorning);
        var sore = Stages.Of(request).Situation.Complaints.SelectMany(c => c.Stands).Single(s => s.Region.Id == region);

        var picks = Stages.Answer(request).Picks.Select(p => p.Exercise.Id).ToList();

        Assert.Equal(stage, TestEdition.Vocabulary.LoadingStages[(int)sore.Stage!.Stage].Id);
        Assert.True(picks.Intersect(sore.Stage.Treatment, StringComparer.Ordinal).Any(), $"none of {string.Join(", ", sore.Stage.Treatment)} in {string.Join(", ", picks)}");
    }

    private static bool Loads(string exercise, string region) =>
        Domain.Catalogue.ExerciseCatalogue.LoadOn(TestEdition.Exercise(exercise), TestEdition.Vocabulary.Regions.Find(region)!) is { High: > 0 };

    private static SubstitutionAnswer Swap(string exercise, RecommendationRequest context) =>
        SubstitutionPipeline.Answer(new SubstitutionRequest { Exercise = exercise, Reason = "equipment", Context = context, Count = 12 }, TestEdition.Current, "");

    private static IReadOnlySet<string> Eligible(RequestBuilder request) => Stages.Of(request).EligibleIds();
}
