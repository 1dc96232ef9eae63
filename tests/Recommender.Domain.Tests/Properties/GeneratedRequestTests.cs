using System.Text.Json;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Properties;

/// <summary>What holds of every request. CsCheck prints the seed of a failure; give it as <c>seed</c> to see that one again.</summary>
public sealed class GeneratedRequestTests
{
    private static Edition Edition => TestEdition.Current;

    private static ExerciseCatalogue Catalogue => Edition.Catalogue;

    [Fact]
    public void Generated_requests_have_no_faults_and_reach_every_status()
    {
        var statuses = new HashSet<AnswerStatus>();
        var scopes = new HashSet<string?>();
        Sample(RequestGenerator.Requests, 600, request =>
        {
            Assert.Empty(RequestChecks.Of(request, Catalogue, Edition.Knowledge));
            var answer = Stages.Answer(request);
            lock (statuses)
            {
                statuses.Add(answer.Status);
                scopes.Add(answer.Referral?.Scope);
            }
        });
        Assert.Equal(Enum.GetValues<AnswerStatus>().Length, statuses.Count);
        Assert.Superset(new HashSet<string?> { null, "all", "regions" }, scopes);
    }

    [Fact]
    public void Every_part_of_ten_thousand_answers_adds_up() =>
        Sample(RequestGenerator.Requests, 10_000, request => ExplanationChecks.AddsUp(Stages.Answer(request)));

    [Fact]
    public void More_pain_never_raises_a_limit_and_never_makes_anything_eligible() =>
        Sample(Gen.Select(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), Gen.Int[0, 2], Gen.Int[1, 10]), 2_000, (request, which, by) =>
        {
            var i = which % request.Complaints!.Count;
            var worse = request with { Complaints = [.. request.Complaints.Select((c, n) => n == i ? c with { Pain = Math.Min(10, c.Pain!.Value + by) } : c)] };
            NeverKinder(request, worse);
        });

    [Fact]
    public void A_worse_morning_never_raises_a_limit_and_never_makes_anything_eligible() =>
        Sample(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), 1_000, request =>
            NeverKinder(request with { Complaints = [.. request.Complaints!.Select(c => c with { NextMorning = "same", Mornings = null })] },
                request with { Complaints = [.. request.Complaints!.Select(c => c with { NextMorning = "worse", Mornings = null })] }));

    [Fact]
    public void A_growing_athlete_is_never_held_less_by_pain_than_an_adult() =>
        Sample(Gen.Select(RequestGenerator.Requests, Gen.Int[8, 15]), 1_000, (request, age) =>
        {
            var young = request with { Athlete = request.Athlete! with { AgeYears = age, TrainingAgeYears = Math.Min(request.Athlete.TrainingAgeYears ?? 0, age) } };
            var grown = young with { Athlete = young.Athlete! with { AgeYears = 25 } };
            LimitsNeverRise(Stages.Of(grown), Stages.Of(young));
        });

    [Fact]
    public void No_pick_loads_a_sore_region_above_its_limit_or_a_barred_one_above_what_is_spared() =>
        Sample(RequestGenerator.Requests, 1_500, request =>
        {
            var answer = Stages.Answer(request);
            var spared = Edition.Knowledge.Pain.SparedLoad.Value;
            foreach (var pick in answer.Picks)
            {
                var exercise = Catalogue.Find(pick.Exercise.Id)!;
                foreach (var region in Catalogue.Vocabulary.Regions.Where(r => r.Covers.Count == 0))
                {
                    var high = ExerciseCatalogue.LoadOn(exercise, region)?.High ?? 0;
                    var limit = Stages.LimitOn(answer.Limits, region.Id, exercise.LoadingRate);
                    Assert.True(high <= limit, $"{exercise.Id} loads {region.Id} with up to {high}; the limit is {limit}.");
                    Assert.True(answer.Referral?.Regions.Contains(region.Id) != true || high <= spared, $"{exercise.Id} loads the referred {region.Id} with up to {high}; {spared} is spared.");
                }
            }
        });

    [Fact]
    public void Taking_equipment_away_never_makes_anything_eligible() =>
        Sample(Gen.Select(RequestGenerator.Requests, Gen.Int[0, 1 << 20]), 1_000, (request, which) =>
        {
            var all = request.Setting!.Equipment ?? Situation.Of(request, Edition).Place.Equipment;
            var fewer = all.Where((_, i) => (which & (1 << (i % 20))) == 0).ToList();
            var with = Stages.Of(request with { Setting = request.Setting with { Equipment = all } });
            var without = Stages.Of(request with { Setting = request.Setting with { Equipment = fewer } });
            Within(without.EligibleIds(), with.EligibleIds());
        });

    [Fact]
    public void No_pick_needs_equipment_that_is_not_there() =>
        Sample(RequestGenerator.Requests, 1_000, request =>
        {
            var there = (request.Setting!.Equipment ?? Situation.Of(request, Edition).Place.Equipment).ToHashSet(StringComparer.Ordinal);
            if (there.Contains("dumbbells"))
            {
                there.Add("dumbbell");
            }

            foreach (var pick in Stages.Answer(request).Picks)
            {
                Within(pick.Exercise.Equipment, there);
                Assert.Contains(Catalogue.Find(pick.Exercise.Id)!.Equipment, set => set.SequenceEqual(pick.Exercise.Equipment));
            }
        });

    [Fact]
    public void The_order_of_the_catalogue_changes_nothing()
    {
        var editions = Enumerable.Range(1, 4).Select(seed =>
        {
            var shuffled = Catalogue.Exercises.ToArray();
            new Random(seed).Shuffle(shuffled);
            return new Edition(new ExerciseCatalogue(shuffled, Catalogue.Vocabulary), Edition.Knowledge, Edition.CatalogueVersion, Edition.RulesVersion);
        }).ToList();
        Sample(Gen.Select(RequestGenerator.Requests, Gen.Int[0, editions.Count - 1]), 500, (request, which) =>
            Assert.Equal(Bytes(Stages.Answer(request)), Bytes(Stages.Answer(request, editions[which]))));
    }

    [Fact]
    public void The_same_request_twice_gives_the_same_bytes() =>
        Sample(RequestGenerator.Requests, 500, request => Assert.Equal(Bytes(Stages.Answer(request)), Bytes(Stages.Answer(request))));

    [Fact]
    public void A_refused_exercise_is_never_picked_and_everything_is_either_eligible_or_refused() =>
        Sample(RequestGenerator.Requests, 1_000, request =>
        {
            var stages = Stages.Of(request);
            var outcome = stages.Eligibility();
            if (outcome.Limits.Referral?.Scope == "all")
            {
                return;
            }

            for (var e = 0; e < Catalogue.Count; e++)
            {
                var refusing = EligibilityFilter.Gates.Where(g => g.Asks(stages.GateContext) && g.Refuses(stages.GateContext, e)).ToList();
                Assert.Equal(refusing.Count == 0, outcome.Eligible.Contains(e));
                Assert.All(refusing, gate => Assert.Equal(gate.Reason, gate.Explain(stages.GateContext, e).Reason));
            }

            Within(stages.PickedIds(), stages.EligibleIds());
            var answer = Stages.Answer(request);
            Assert.Equal(outcome.Eligible.Length, answer.EligibleCount);
            Assert.Equal(Catalogue.Count, answer.EligibleCount + answer.LeftOut.Count);
            Assert.DoesNotContain(answer.Picks, p => request.Exclude!.Contains(p.Exercise.Id));
        });

    [Fact]
    public void Picks_are_one_a_family_by_score_and_as_many_as_asked_while_families_that_serve_a_need_last() =>
        Sample(RequestGenerator.Requests, 1_500, request =>
        {
            var stages = Stages.Of(request);
            var answer = Stages.Answer(request);
            Assert.Equal(answer.Picks.Count, answer.Picks.Select(p => p.Exercise.Family).Distinct(StringComparer.Ordinal).Count());
            Assert.Equal(answer.Picks.OrderByDescending(p => p.Score.Thousandths).ThenBy(p => p.Exercise.Id, StringComparer.Ordinal).Select(p => p.Exercise.Id), answer.Picks.Select(p => p.Exercise.Id));
            Assert.Equal(Enumerable.Range(1, answer.Picks.Count), answer.Picks.Select(p => p.Rank));

            var ranking = stages.Ranking();
            var least = Points.Of(Edition.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
            var families = Enumerable.Range(0, ranking.Count).Where(rank => ranking.NeedPoints[rank] >= least).Select(rank => Catalogue.Families[ranking.Positions[rank]]).Distinct().Count();
            Assert.Equal(Math.Min(stages.Situation.Count, families), answer.Picks.Count);
        });

    [Fact]
    public void What_the_coach_asked_for_first_is_among_the_picks_when_anything_eligible_is_strong_for_it() =>
        Sample(RequestGenerator.Requests.Where(r => r.Needs!.Count > 0), 1_000, request =>
        {
            var stages = Stages.Of(request);
            var ranking = stages.Ranking();
            var least = Points.Of(Edition.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
            bool Answers(string id) => stages.Situation.Asks[0].Any(quality => Catalogue.RatingOf(Catalogue.PositionOf(id), quality) >= QualityRating.Strong);
            var could = Enumerable.Range(0, ranking.Count).Any(rank => ranking.NeedPoints[rank] >= least && Answers(Catalogue.Exercises[ranking.Positions[rank]].Id));
            Assert.Equal(could, stages.PickedIds().Any(Answers));
        });

    [Fact]
    public void Every_dose_fits_the_minutes_and_is_worth_doing() =>
        Sample(RequestGenerator.Requests, 1_000, request =>
            Assert.All(Stages.Answer(request).Picks, pick =>
            {
                if (Stages.Of(request).Situation.NoAutomaticDose)
                {
                    Assert.Null(pick.Dose);
                    return;
                }

                Assert.True(pick.Dose!.Sets >= 1 && pick.Dose!.Amount > 0, $"{pick.Exercise.Id}: {pick.Dose!.Sets} x {pick.Dose!.Amount}.");
                Assert.False(pick.Dose!.Minutes > request.Setting!.Minutes, $"{pick.Exercise.Id} needs {pick.Dose!.Minutes} of {request.Setting.Minutes} min.");
            }));

    [Fact]
    public void A_referral_of_scope_all_has_no_picks_and_names_its_reasons() =>
        Sample(Gen.Select(RequestGenerator.Unflagged, RequestGenerator.One(Catalogue.Vocabulary.RedFlags)), 1_000, (request, flag) =>
        {
            request = request with { Athlete = request.Athlete! with { Clearances = null } };
            // A general sign, or one of a body part that came without its complaint.
            var answer = Stages.Answer(request with { RedFlags = [flag.Id] });
            Assert.Equal(AnswerStatus.Referred, answer.Status);
            Assert.Equal("all", answer.Referral!.Scope);
            Assert.Contains(answer.Referral.Reasons, r => r.Flag == flag.Id);
            Assert.Empty(answer.Picks);
        });

    private static void NeverKinder(RecommendationRequest mild, RecommendationRequest severe)
    {
        var before = Stages.Of(mild);
        var after = Stages.Of(severe);
        LimitsNeverRise(before, after);
        var was = before.Eligibility();
        foreach (var e in after.Eligibility().Eligible)
        {
            Assert.True(was.RefusedBy[e] == 0, $"{Catalogue.Exercises[e].Id} was refused before: {was.RefusedBy[e]:b}.");
        }
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

        Assert.True(before.Limits.Barred.All(after.Limits.Barred.Contains), "a barred region was let go.");
    }

    private static void Within(IEnumerable<string> some, IReadOnlySet<string> all)
    {
        var beyond = some.Where(id => !all.Contains(id)).ToList();
        Assert.True(beyond.Count == 0, $"not eligible before: {string.Join(", ", beyond)}.");
    }

    private static byte[] Bytes(Answer answer) => JsonSerializer.SerializeToUtf8Bytes(answer, WireJson.Default.Answer);

    private static void Sample<T>(Gen<T> gen, long times, Action<T> holds) => gen.Sample(holds, iter: times, threads: 2, print: Print);

    private static void Sample<T1, T2>(Gen<(T1, T2)> gen, long times, Action<T1, T2> holds) => gen.Sample(x => holds(x.Item1, x.Item2), iter: times, threads: 2, print: x => Print(x.Item1) + ", " + x.Item2);

    private static void Sample<T1, T2, T3>(Gen<(T1, T2, T3)> gen, long times, Action<T1, T2, T3> holds) =>
        gen.Sample(x => holds(x.Item1, x.Item2, x.Item3), iter: times, threads: 2, print: x => Print(x.Item1) + ", " + x.Item2 + ", " + x.Item3);

    private static string Print<T>(T value) => value is RecommendationRequest request ? JsonSerializer.Serialize(request, WireJson.Compact.RecommendationRequest) : value?.ToString() ?? "null";
}
