using Recommender.Domain;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Learning.Invented;
using Recommender.Learning.Preferences;
using Recommender.Testing;

namespace Recommender.Learning.Tests.Preferences;

/// <summary>Coaches whose leanings are known, through the whole line: answers, choices, pairs, fit.</summary>
public sealed class InventedCoachTests
{
    private static readonly Edition Edition = TestEdition.Current;

    private static readonly OutcomeRules Rules = TestEdition.Knowledge.Outcomes!;

    private static readonly InventedCoach Nobody = new("HC-0", _ => 0, new Dictionary<string, decimal>(), 1.5, 0.5);

    private static readonly Dictionary<string, Answer> Known = new(StringComparer.Ordinal);

    private static readonly Lazy<(RecommendationRequest Request, Answer Answer)[]> Answered = new(() => [.. InventedSeason.Requests(TestEdition.DataFolder, null, 1600, 1).Select(r => (r, Cached(r)))]);

    [Fact]
    public void Sign_and_order_of_known_leanings_are_recovered()
    {
        var coach = new InventedCoach("HC-1", e => e.Pattern switch { "hinge" => 5, "squat" => -4, _ => 0 }, new Dictionary<string, decimal> { ["set-up-cost"] = 3 }, 1.5, 0.5);
        var numbers = Learned(coach, 1600).Coaches["HC-1"];

        var byPattern = numbers.Families.GroupBy(f => Edition.Catalogue.Exercises.First(e => e.Family == f.Key).Pattern).ToDictionary(g => g.Key, g => g.Average(f => f.Value));
        var others = byPattern.Where(p => p.Key is not ("hinge" or "squat")).Select(p => p.Value).Average();
        Assert.True(byPattern["hinge"] > others && others > byPattern["squat"], string.Join(", ", byPattern));
        Assert.True(numbers.Factors["set-up-cost"] > 0.2m, $"set-up-cost {numbers.Factors["set-up-cost"]}");
    }

    /// <summary>Leanings inside the bound, so that they can be learned whole; the mean over five draws of chance, on decisions that taught nothing.</summary>
    [Fact]
    public void The_error_shrinks_with_data()
    {
        var coach = new InventedCoach("HC-1", e => e.Pattern switch { "hinge" => 3, "squat" => -2, "calf" => 1.5m, _ => 0 }, new Dictionary<string, decimal>(), 1.5, 0.5);
        double Error(int decisions) => Enumerable.Range(11, 5).Average(seed =>
        {
            var learned = PreferenceFit.Of([.. Decisions(coach, decisions, seed).SelectMany(d => d.Pairs)], Rules);
            var score = new LearnedScore(learned.Coaches.GetValueOrDefault(coach.Id) ?? learned.Organisation, Rules.Bounds);
            return Answered.Value.Skip(1200).SelectMany(a => Off(a.Answer, a.Request, score)).Average();
        });

        IEnumerable<double> Off(Answer answer, RecommendationRequest request, LearnedScore score)
        {
            var sore = SoreRegions.Of(Situation.Of(request, Edition));
            var leans = answer.Picks.Where(p => sore.LoadedBy(Edition.Catalogue.PositionOf(p.Exercise.Id)) is null).Select(p => (True: (double)coach.TrueLean(p, Edition),
                Learned: (score.Of([.. p.Contributions.SkipLast(1).Select(c => c.Points.Thousandths)], p.Exercise.Family, null) - p.Contributions.SkipLast(1).Sum(c => c.Points.Thousandths)) / 1000.0)).ToList();

            // A constant moves no order, so it is no error.
            var (meanTrue, meanLearned) = leans.Count == 0 ? (0, 0) : (leans.Average(l => l.True), leans.Average(l => l.Learned));
            return leans.Select(l => Math.Pow(l.True - meanTrue - (l.Learned - meanLearned), 2));
        }

        var (little, some, much) = (Error(40), Error(200), Error(1200));
        Assert.True(little > some && some > much, $"{little:0.000}, {some:0.000}, {much:0.000}");
    }

    [Fact]
    public void A_coach_without_leanings_is_left_as_a_draft_and_little_data_moves_little()
    {
        var decisions = Decisions(Nobody, 400);
        var learned = PreferenceFit.Of([.. decisions.Take(300).SelectMany(d => d.Pairs)], Rules);
        var gains = new PreferenceTrial(Rules.Publication, Rules.Bounds).Of([.. decisions.Skip(300)], null, learned.Organisation!)!.Value;

        Assert.False(gains.Pairs.Low > 0 && gains.Ndcg.Low > 0, gains.ToString());
        Assert.Null(PreferenceFit.Of([.. decisions.Take(5).SelectMany(d => d.Pairs)], Rules).Organisation);
        Assert.True(Learned(InventedSeason.Coaches[0], 25).Organisation!.Families.Values.Max(Math.Abs) < 3);
    }

    [Fact]
    public void Leanings_that_are_there_help_on_later_decisions()
    {
        var decisions = Decisions(InventedSeason.Coaches[0], 1600);
        var learned = PreferenceFit.Of([.. decisions.Take(1200).SelectMany(d => d.Pairs)], Rules);
        var gains = new PreferenceTrial(Rules.Publication, Rules.Bounds).Of([.. decisions.Skip(1200)], null, learned.Coaches["HC-1"])!.Value;

        Assert.True(gains.Pairs.Low > 0 && gains.Ndcg.Low > 0, gains.ToString());
    }

    [Fact]
    public void The_same_reports_in_any_order_give_the_same_numbers()
    {
        var pairs = Decisions(InventedSeason.Coaches[2], 300).SelectMany(d => d.Pairs).ToList();
        pairs.AddRange(Decisions(InventedSeason.Coaches[1], 300).SelectMany(d => d.Pairs));
        var (one, other) = (PreferenceFit.Of(pairs, Rules), PreferenceFit.Of([.. pairs.AsEnumerable().Reverse()], Rules));

        Assert.Equal(Text(one), Text(other));
        Assert.Equal(["HC-2", "HC-3"], one.Coaches.Keys);

        string Text(LearnedNumbers n) => string.Join('|', n.Coaches.Values.Append(n.Organisation!).Select(x => Answers.Learned.PreferenceText.Of(x).Version));
    }

    [Fact]
    public void A_coach_who_always_declines_what_spares_a_sore_knee_changes_no_gate_and_no_tissue_cost()
    {
        RecommendationRequest sore = RequestBuilder.Skilled().Sore("patellar-tendon", 3, "left").Count(30);
        var stages = Stages.Of(sore);
        var region = TestEdition.Vocabulary.Regions.Find("patellar-tendon")!;
        bool Loads(string id) => ExerciseCatalogue.LoadOn(TestEdition.Exercise(id), region) is { High: > 0 };

        // Two hundred decisions, in each of which only what loads the knee is used.
        var answer = Stages.Answer(sore);
        Assert.Contains(answer.Picks, p => Loads(p.Exercise.Id));
        Assert.Contains(answer.Picks, p => !Loads(p.Exercise.Id));
        var pairs = Enumerable.Range(0, 200).SelectMany(d => ChoicePairs.Of([.. answer.Picks.Select(p => new LearnedOutcome($"{d:000}", "HC-9", Loads(p.Exercise.Id) ? Verdicts.Used : Verdicts.Declined,
            new OutcomeFacts("recommendation", new ChoiceFacts(p.Exercise.Id, p.Exercise.Family, p.Rank, true, Loads(p.Exercise.Id), [.. p.Contributions.SkipLast(1).Select(c => c.Points.Thousandths)]), null, null)))], Rules.Position)).ToList();
        var learned = PreferenceFit.Of(pairs, Rules).Coaches["HC-9"];
        Assert.True(learned.Factors["tissue-cost"] >= 0);

        var leaning = sore with { Read = new FactsRead(new Preference("of-nine", learned), []) };
        var after = Stages.Of(leaning);
        Assert.Equal(stages.EligibleIds().Order(), after.EligibleIds().Order());
        Assert.Equal(stages.Limits.Limits, after.Limits.Limits);
        var (off, on) = (new ScoringEngine(stages.Scoring), new ScoringEngine(after.Scoring));
        for (var e = 0; e < Edition.Catalogue.Count; e++)
        {
            var (was, now) = (off.Explain(e), on.Explain(e));
            Assert.Equal(was.Single(c => c.Factor == "tissue-cost").Points, now.Single(c => c.Factor == "tissue-cost").Points);
            Assert.True(Loads(Edition.Catalogue.Exercises[e].Id) ? now[^1].Points.Thousandths <= 0 : now[^1].Points.Thousandths >= 0);
        }
    }

    private static LearnedNumbers Learned(InventedCoach coach, int decisions) => PreferenceFit.Of([.. Decisions(coach, decisions).SelectMany(d => d.Pairs)], Rules);

    private static IReadOnlyList<ReportedDecision> Decisions(InventedCoach coach, int count, int seed = 11)
    {
        var random = new Random(seed);
        return ReportedDecision.Of(Answered.Value.Take(count).SelectMany((a, i) => coach.Chooses(a.Answer, a.Request, Edition, random).Select(c => new LearnedOutcome($"{i:00000}", coach.Id, c.Report.Verdict!, c.Facts))), Rules.Position);
    }

    /// <summary>A season asks much the same over and over.</summary>
    private static Answer Cached(RecommendationRequest request)
    {
        var key = $"{request.Athlete!.Ref} {request.Phase} {request.Setting is null} {request.Complaints is null}";
        return Known.TryGetValue(key, out var answer) ? answer : Known[key] = RecommendationPipeline.Answer(request, Edition, "");
    }
}
