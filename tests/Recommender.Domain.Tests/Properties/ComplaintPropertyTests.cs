using System.Text.Json;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Properties;

/// <summary>What holds of every complaint, restriction and clearance. CsCheck prints the seed of a failure; give it as <c>seed</c> to see that one again.</summary>
public sealed class ComplaintPropertyTests
{
    private static readonly Type[] OfPain = [typeof(ReferredRegionSpared), typeof(TissueLoadWithinPain), typeof(UnprovokedWork), typeof(WithinRestriction)];

    private static Edition Edition => TestEdition.Current;

    private static ExerciseCatalogue Catalogue => Edition.Catalogue;

    [Fact]
    public void Another_complaint_never_makes_anything_eligible() =>
        Sample(Gen.Select(RequestGenerator.Requests, RequestGenerator.FlaggedComplaints), 1_500, (request, more) =>
            NeverKinder(request, request with { Complaints = [.. request.Complaints!, more] }));

    [Fact]
    public void Another_restriction_never_makes_anything_eligible() =>
        Sample(Gen.Select(RequestGenerator.Requests, CareGenerator.Restrictions), 1_500, (request, more) =>
            NeverKinder(request, request with { Athlete = request.Athlete! with { Restrictions = [.. request.Athlete.Restrictions ?? [], more] } }));

    [Fact]
    public void Another_provocation_never_makes_anything_eligible() =>
        Sample(Gen.Select(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), RequestGenerator.One(Catalogue.Vocabulary.Provocations)), 1_000, (request, by) =>
            NeverKinder(request, With(request, 0, c => c with { ProvokedBy = [.. c.ProvokedBy ?? [], by.Id] })));

    [Fact]
    public void Several_complaints_hold_exactly_what_any_of_them_alone_holds_by_load() =>
        Sample(RequestGenerator.Unflagged.Where(r => r.Complaints!.Count > 1), 1_000, request =>
        {
            var together = Stages.Of(request).Limits;
            var alone = request.Complaints!.Select(c => Stages.Of(request with { Complaints = [c] }).Limits).ToList();
            foreach (var region in Catalogue.Vocabulary.Regions)
            {
                foreach (var rate in Enum.GetValues<LoadingRate>())
                {
                    Assert.Equal(alone.Min(a => Stages.LimitOn(a.Limits, region.Id, rate)), Stages.LimitOn(together.Limits, region.Id, rate));
                }
            }

            Assert.Equal(alone.SelectMany(a => a.Barred).Distinct().Order(), together.Barred.Order());
        });

    [Fact]
    public void Pain_that_rises_week_by_week_is_never_held_less() =>
        Sample(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), 1_000, request =>
            NeverKinder(With(request, 0, c => c with { Trend = "steady" }), With(request, 0, c => c with { Trend = "rising" })));

    [Fact]
    public void One_more_worse_morning_is_never_held_less() =>
        Sample(Gen.Select(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), Gen.Int[0, 6]), 1_000, (request, mornings) =>
            NeverKinder(With(request, 0, c => c with { NextMorning = null, Mornings = Worse(mornings) }), With(request, 0, c => c with { NextMorning = null, Mornings = Worse(mornings + 1) })));

    [Fact]
    public void A_stage_further_back_is_never_held_less() =>
        Sample(Gen.Select(RequestGenerator.Requests.Where(r => r.Complaints is [{ Kind: not "soreness" }, ..]), Gen.Int[0, 2]), 1_000, (request, stage) =>
            NeverKinder(With(request, 0, c => c with { Stage = Catalogue.Vocabulary.LoadingStages[stage + 1].Id }), With(request, 0, c => c with { Stage = Catalogue.Vocabulary.LoadingStages[stage].Id })));

    [Fact]
    public void An_unknown_tissue_is_never_held_less_by_load_than_a_known_soft_one() =>
        Sample(Gen.Select(RequestGenerator.Unflagged.Where(r => r.Complaints is [{ Kind: not "soreness" }, ..]), RequestGenerator.One(["tendon", "muscle", "joint", "nerve", "growth-plate"])), 1_500, (request, tissue) =>
            LimitsNeverRise(Stages.Of(With(request, 0, c => c with { Tissue = tissue })), Stages.Of(With(request, 0, c => c with { Tissue = "unknown" }))));

    [Fact]
    public void Any_tissue_that_is_sent_only_adds_to_what_the_region_is_held_to() =>
        Sample(Gen.Select(RequestGenerator.Unflagged.Where(r => r.Complaints is [{ Kind: not "soreness" }, ..]), RequestGenerator.One(Catalogue.Vocabulary.Tissues)), 1_500, (request, tissue) =>
            LimitsNeverRise(Stages.Of(With(request, 0, c => c with { Tissue = null })), Stages.Of(With(request, 0, c => c with { Tissue = tissue.Id }))));

    [Fact]
    public void Soreness_after_training_alone_never_refers() =>
        Sample(Gen.Select(RequestGenerator.Unflagged.Where(r => r.Athlete!.Limitations is null), Gen.Int[0, 10], Gen.Int[0, 5]), 1_500, (request, pain, days) =>
        {
            var sore = request with
            {
                Complaints = [.. request.Complaints!.Select(c => new Complaint { Region = c.Region, Side = c.Side, Pain = pain, Kind = "soreness", DaysSinceOnset = days, Mornings = ["worse", "worse"], Trend = c.Trend, ProvokedBy = c.ProvokedBy })],
            };
            Assert.Null(Stages.Of(sore).Limits.Referral);
        });

    [Fact]
    public void Soreness_of_a_muscle_is_never_held_more_than_pain_there_and_no_soreness_holds_nothing_more_than_pain() =>
        Sample(RequestGenerator.Unflagged.Where(r => r.Complaints is [{ Kind: not "soreness", Tissue: null, Stage: null }, ..]), 1_000, request =>
            LimitsNeverRise(Stages.Of(With(request, 0, c => new Complaint { Region = c.Region, Side = c.Side, Pain = c.Pain, Kind = "soreness" })),
                Stages.Of(With(request, 0, c => new Complaint { Region = c.Region, Side = c.Side, Pain = c.Pain, Kind = "pain" }))));

    [Fact]
    public void A_growth_spurt_and_an_age_below_the_rule_are_never_held_less_than_an_adult() =>
        Sample(Gen.Select(RequestGenerator.Requests, Gen.Int[8, 15], Gen.Bool), 1_500, (request, age, spurt) =>
        {
            var adult = request with { Athlete = request.Athlete! with { AgeYears = 25, GrowthSpurt = null, History = null, TrainingAgeYears = 2 } };
            var young = adult with { Athlete = adult.Athlete! with { AgeYears = spurt ? 25 : age, GrowthSpurt = spurt ? true : null } };
            var before = Stages.Of(adult);
            var after = Stages.Of(young);
            LimitsNeverRise(before, after);
            PainHoldsNoLess(before, after);
            Assert.True(after.Situation.Young);
            Assert.All(after.Situation.Complaints.SelectMany(c => c.Stands), s => Assert.False(s.FollowsProgramme));
        });

    [Fact]
    public void A_referred_region_sees_no_more_than_the_spared_load_and_suspected_bone_no_landing() =>
        Sample(RequestGenerator.Requests, 2_000, request =>
        {
            var stages = Stages.Of(request);
            var answer = Stages.Answer(request);
            foreach (var exercise in answer.Picks.Select(p => Catalogue.Find(p.Exercise.Id)!))
            {
                Assert.All(answer.Referral?.Regions ?? [], region =>
                    Assert.True((ExerciseCatalogue.LoadOn(exercise, Catalogue.Vocabulary.Regions.Find(region)!)?.High ?? 0) <= Edition.Knowledge.Pain.SparedLoad.Value, $"{exercise.Id} loads the referred {region}."));
                Assert.False(stages.Limits.NoImpact && exercise.LoadingRate == LoadingRate.Impact, $"{exercise.Id} lands while bone may be hurt.");
            }
        });

    [Fact]
    public void Left_and_right_are_treated_alike() =>
        Sample(RequestGenerator.Requests, 800, request =>
        {
            var mirrored = request with
            {
                Complaints = [.. request.Complaints!.Select(c => c with { Side = Mirror(c.Side) })],
                Athlete = request.Athlete! with { Restrictions = request.Athlete.Restrictions is { } written ? [.. written.Select(r => r with { Side = Mirror(r.Side) })] : null },
            };
            var one = Stages.Of(request);
            var other = Stages.Of(mirrored);
            Assert.Equal(one.EligibleIds().Order(StringComparer.Ordinal), other.EligibleIds().Order(StringComparer.Ordinal));
            Assert.Equal(one.Limits.Limits.Select(l => l with { Side = Mirror(l.Side) }), other.Limits.Limits);
        });

    [Fact]
    public void Every_limit_names_the_sore_side_and_the_gate_asks_the_sorer_of_two() =>
        Sample(Gen.Select(RequestGenerator.One(Catalogue.Vocabulary.Regions), Gen.Int[0, 10], Gen.Int[0, 10]), 400, (region, left, right) =>
        {
            var request = RequestBuilder.Skilled().Sore(region.Id, left, "left").Sore(region.Id, right, "right");
            var limits = Stages.Of(request).Limits.Limits;
            Assert.Contains(limits, l => l.Side == Side.Left);
            Assert.Contains(limits, l => l.Side == Side.Right);
            var sorer = Stages.Of(RequestBuilder.Skilled().Sore(region.Id, Math.Max(left, right), "left"));
            Assert.True(Stages.Of(request).EligibleIds().IsSubsetOf(sorer.EligibleIds()));
        });

    [Fact]
    public void Other_parts_of_the_body_may_still_be_trained_while_one_region_is_referred_and_the_answer_says_so() =>
        Sample(RequestGenerator.One(Catalogue.Vocabulary.Regions), 200, region =>
        {
            var answer = Stages.Answer(RequestBuilder.Skilled().WeeksOut(20).Sore(region.Id, 8));
            Assert.Equal(AnswerStatus.Answered, answer.Status);
            Assert.Equal("regions", answer.Referral!.Scope);
            Assert.Contains("rest of the body may be trained", answer.Referral.Advice, StringComparison.Ordinal);
            Assert.NotEmpty(answer.Picks);
        });

    private static IReadOnlyList<string> Worse(int mornings) => [.. Enumerable.Repeat("worse", mornings).Append("same").Take(7)];

    private static string? Mirror(string? side) => side switch { "left" => "right", "right" => "left", _ => side };

    private static Side Mirror(Side side) => side switch { Side.Left => Side.Right, Side.Right => Side.Left, _ => side };

    private static RecommendationRequest With(RecommendationRequest request, int which, Func<Complaint, Complaint> change) =>
        request with { Complaints = [.. request.Complaints!.Select((c, i) => i == which ? change(c) : c)] };

    private static void NeverKinder(RecommendationRequest mild, RecommendationRequest severe)
    {
        var before = Stages.Of(mild);
        var after = Stages.Of(severe);
        LimitsNeverRise(before, after);
        PainHoldsNoLess(before, after);
    }

    private static void LimitsNeverRise(Stages before, Stages after)
    {
        foreach (var region in Catalogue.Vocabulary.Regions)
        {
            foreach (var rate in Enum.GetValues<LoadingRate>())
            {
                Assert.True(Stages.LimitOn(after.Limits.Limits, region.Id, rate) <= Stages.LimitOn(before.Limits.Limits, region.Id, rate), $"{region.Id}, {rate}: the limit rose.");
            }
        }
    }

    /// <summary>
    /// What the gates of pain and clinicians refused before is refused after. The minutes are left out: another complaint is dosed lower, so it may fit.
    /// </summary>
    private static void PainHoldsNoLess(Stages before, Stages after)
    {
        Assert.True(before.Limits.Barred.All(after.Limits.Barred.Contains), "a barred region was let go.");
        if (after.Limits.Referral?.Scope == "all")
        {
            return;
        }

        Assert.NotEqual("all", before.Limits.Referral?.Scope);
        var gates = EligibilityFilter.Gates.Where(g => OfPain.Contains(g.GetType())).ToList();
        for (var e = 0; e < Catalogue.Count; e++)
        {
            var was = gates.Exists(g => g.Asks(before.GateContext) && g.Refuses(before.GateContext, e));
            var isNow = gates.Exists(g => g.Asks(after.GateContext) && g.Refuses(after.GateContext, e));
            Assert.True(isNow || !was, $"{Catalogue.Exercises[e].Id} was held before.");
        }
    }

    private static void Sample<T>(Gen<T> gen, long times, Action<T> holds) => gen.Sample(holds, iter: times, threads: 2, print: Print);

    private static void Sample<T1, T2>(Gen<(T1, T2)> gen, long times, Action<T1, T2> holds) => gen.Sample(x => holds(x.Item1, x.Item2), iter: times, threads: 2, print: x => Print(x.Item1) + ", " + Print(x.Item2));

    private static void Sample<T1, T2, T3>(Gen<(T1, T2, T3)> gen, long times, Action<T1, T2, T3> holds) =>
        gen.Sample(x => holds(x.Item1, x.Item2, x.Item3), iter: times, threads: 2, print: x => Print(x.Item1) + ", " + x.Item2 + ", " + x.Item3);

    private static string Print<T>(T value) => value is RecommendationRequest request ? JsonSerializer.Serialize(request, WireJson.Compact.RecommendationRequest) : value?.ToString() ?? "null";
}
