using System.Text.Json;
using CsCheck;
using Recommender.Answers.Wire;
using Recommender.Domain.Audit;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring;

/// <summary>What learned numbers may do to a score, whatever they are.</summary>
public sealed class LeaningTests
{
    private const int Lean = 8;

    private static readonly int Most = Points.Of(TestEdition.Knowledge.Outcomes!.Bounds.MostPoints).Thousandths;

    private static readonly int Cost = ScoringEngine.Factors.Select((f, i) => (f.Id, i)).Single(f => f.Id == "tissue-cost").i;

    private static readonly string[] Factors = [.. ScoringEngine.Factors.Select(f => f.Id)];

    private static readonly string[] Families = [.. TestEdition.Current.Catalogue.Exercises.Select(e => e.Family).Distinct().Order(StringComparer.Ordinal)];

    /// <summary>Numbers far beyond anything that a fit would give, so that only the bounds hold them.</summary>
    private static Gen<Preference> Preferences { get; } = Gen.Select(Gen.Int[-3000, 3000].Array[9], Gen.Int[-6000, 6000].Array[Families.Length], (shares, points) => new Preference($"hand-made-{string.Join(',', shares)}-{points.Sum()}",
        new PreferenceNumbers(PreferenceScope.Coach, 83, 120, shares.Select((s, i) => (Factors[i], s / 1000m)).ToDictionary(x => x.Item1, x => x.Item2), points.Select((p, i) => (Families[i], p / 1000m)).ToDictionary(x => x.Item1, x => x.Item2))));

    [Fact]
    public void Answers_without_a_preference_are_byte_for_byte_what_they_were() =>
        RequestGenerator.Requests.Sample(request => Assert.Equal(Bytes(Stages.Answer(request)), Bytes(Stages.Answer(request with { Read = FactsRead.Nothing }))), iter: 200);

    [Fact]
    public void Every_part_adds_up_and_the_whole_stays_within_its_bound() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var answer = Stages.Answer(Reading(request, preference));
            ExplanationChecks.AddsUp(answer);
            Assert.Equal(preference.Version, answer.Versions.Preference);
            foreach (var pick in answer.Picks)
            {
                var lean = pick.Contributions[Lean].Points.Thousandths;
                Assert.InRange(lean, -Most, Most);
                Assert.Equal(lean != 0, pick.Why.Any(w => w.StartsWith("Leans", StringComparison.Ordinal) && w.EndsWith("from 83 choices.", StringComparison.Ordinal)));
            }
        }, iter: 300);

    [Fact]
    public void The_fast_score_is_the_explained_one_for_every_exercise() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var engine = new ScoringEngine(Stages.Of(Reading(request, preference)).Scoring);
            for (var e = 0; e < TestEdition.Current.Catalogue.Count; e++)
            {
                Assert.Equal(engine.Explain(e).Sum(c => c.Points.Thousandths), engine.Score(e, out _));
            }
        }, iter: 40);

    [Fact]
    public void It_touches_no_gate_no_limit_no_referral_and_no_other_factor() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var (off, on) = (Stages.Of(request), Stages.Of(Reading(request, preference)));
            Assert.Equal(off.Eligibility().Eligible, on.Eligibility().Eligible);
            Assert.Equal(off.Eligibility().RefusedBy, on.Eligibility().RefusedBy);
            var (engineOff, engineOn) = (new ScoringEngine(off.Scoring), new ScoringEngine(on.Scoring));
            Assert.Equal(off.Limits.Limits, on.Limits.Limits);
            Assert.Equal(off.Limits.Referral?.Scope, on.Limits.Referral?.Scope);
            for (var e = 0; e < TestEdition.Current.Catalogue.Count; e += 7)
            {
                Assert.Equal(engineOff.Explain(e).SkipLast(1).Select(c => (c.Factor, c.Points)), engineOn.Explain(e).SkipLast(1).Select(c => (c.Factor, c.Points)));
            }
        }, iter: 150);

    [Fact]
    public void Doses_of_an_exercise_are_the_same_with_it() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var (off, on) = (Stages.Of(request), Stages.Of(Reading(request, preference)));
            for (var e = 0; e < TestEdition.Current.Catalogue.Count; e += 3)
            {
                // Each as the best pick: what picks share goes to whoever stands before, and places are what may change.
                Assert.Equal(DoseOf(off, e), DoseOf(on, e));
            }

            static string DoseOf(Stages stages, int e) =>
                JsonSerializer.Serialize(new DoseCalculator(stages.Situation, stages.Profile).Next(e, stages.Needs.PurposeOf(stages.Catalogue, e), stages.Catalogue.Exercises[e].Equipment[0]));
        }, iter: 100);

    [Fact]
    public void In_an_answer_only_what_picks_share_is_dosed_otherwise_with_it() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var (off, on) = (Stages.Answer(request with { Count = 30 }), Stages.Answer(Reading(request with { Count = 30 }, preference)));
            foreach (var (pick, same) in on.Picks.Join(off.Picks, p => p.Exercise.Id, p => p.Exercise.Id, (a, b) => (a, b)).Where(x => !Shares(x.a) && !Shares(x.b)))
            {
                Assert.Equal(JsonSerializer.Serialize(same.Dose), JsonSerializer.Serialize(pick.Dose));
            }

            // Landings of a session, and the one extra set of a weaker side.
            static bool Shares(Pick pick) => TestEdition.Exercise(pick.Exercise.Id).ImpactContacts > 0 || pick.Dose?.Adjustments.Any(a => a.Code == "extra-set") == true;
        }, iter: 100);

    [Fact]
    public void The_cost_of_load_on_tissue_is_never_learned_away() =>
        Gen.Select(RequestGenerator.Requests, Preferences).Sample((request, preference) =>
        {
            var engine = new ScoringEngine(Stages.Of(Reading(request, preference)).Scoring);
            for (var e = 0; e < TestEdition.Current.Catalogue.Count; e += 3)
            {
                Assert.All(engine.Explain(e)[Lean].Details.Where(d => d.Code is "lean:tissue-cost" or "lean:competition-freshness"), d => Assert.True(d.Points.Thousandths <= 0, d.ToString()));
            }
        }, iter: 150);

    [Fact]
    public void While_something_is_sore_it_moves_nothing_that_loads_it_ahead() =>
        Gen.Select(RequestGenerator.Requests.Where(r => r.Complaints!.Count > 0), Preferences).Sample((request, preference) =>
        {
            var stages = Stages.Of(Reading(request, preference));
            var engine = new ScoringEngine(stages.Scoring);
            var catalogue = TestEdition.Current.Catalogue;
            var sore = stages.Situation.Complaints.SelectMany(c => c.Region.Covers.Count == 0 ? [c.Region.Id] : c.Region.Covers).ToHashSet(StringComparer.Ordinal);
            var all = Enumerable.Range(0, catalogue.Count).Select(e => (Loads: sore.Any(r => ExerciseLoads(e, r)), Of: engine.Explain(e))).Select(x => (x.Loads, Cost: x.Of[Cost].Points.Thousandths, Lean: x.Of[Lean].Points.Thousandths)).ToList();

            var spared = all.Where(x => !x.Loads).Select(x => x.Lean).DefaultIfEmpty(0).Min();
            Assert.True(spared >= 0);
            Assert.True(all.Where(x => x.Loads).Select(x => x.Lean).DefaultIfEmpty(0).Max() <= spared);
            var loaded = all.Where(x => x.Loads).OrderBy(x => x.Cost).ToList();
            for (var i = 1; i < loaded.Count; i++)
            {
                Assert.True(loaded[i - 1].Lean <= loaded[i].Lean, "of two that load it, the one with the larger tissue cost leans no further up");
            }

            bool ExerciseLoads(int e, string region) => Recommender.Domain.Catalogue.ExerciseCatalogue.LoadOn(catalogue.Exercises[e], catalogue.Vocabulary.Regions.Find(region)!) is { High: > 0 };
        }, iter: 150);

    [Fact]
    public void Comparison_counterfactuals_and_sensitivity_still_add_up()
    {
        var preference = Preferences.Single(p => p.Numbers.Families.Count > 0, seed: "0000000000001");
        var request = Reading(RequestBuilder.For().Sore("patellar-tendon", 3, "left"), preference);
        var question = new RecommendationAsked(request);
        var answer = Stages.Answer(request);
        var (first, second) = (answer.Picks[0], answer.Picks[1]);

        var compared = Comparisons.Of(question, TestEdition.Current, first.Exercise.Id, second.Exercise.Id);
        Assert.Equal(first.Score - second.Score, compared.Difference);
        Assert.Equal(compared.Difference.Thousandths, compared.Factors.Sum(f => f.Difference.Thousandths));

        // As the numbers stand, the first place is the answer's; so every draw rests on the same sum.
        Assert.Equal(first.Exercise.Id, Sensitivity.Of(question, TestEdition.Current).First);
        foreach (var found in Counterfactuals.Of(question, TestEdition.Current, second.Exercise.Id, mayLowerPain: false).Counterfactuals)
        {
            Assert.True(found.ResultingRank >= 1);
        }
    }

    [Fact]
    public void The_sentence_says_whose_choices_and_how_many()
    {
        var family = TestEdition.Exercise("front-squat").Family;
        var coach = new Preference("v", new PreferenceNumbers(PreferenceScope.Coach, 83, 120, new Dictionary<string, decimal>(), new Dictionary<string, decimal> { [family] = 1.4m }));

        var pick = Stages.Answer(Reading(RequestBuilder.Skilled().Wanting("max-strength").Count(30), coach)).Picks.First(p => p.Exercise.Family == family);

        Assert.Contains("Leans to this coach's choices: +1.4 points, from 83 choices.", pick.Why);
    }

    private static RecommendationRequest Reading(RecommendationRequest request, Preference preference) => request with { Read = new FactsRead(preference, []) };

    private static string Bytes(Answer answer) => JsonSerializer.Serialize(answer, WireJson.Default.Answer);
}
