using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

/// <summary>What a schema cannot see in the rules of ledger and sessions is told with file, place and reason.</summary>
public sealed class SessionRuleChecksTests
{
    private static KnowledgeBase Good => TestEdition.Knowledge;

    [Fact]
    public void The_rules_of_the_data_folder_have_no_fault() => Assert.Empty(Check(Good));

    [Fact]
    public void A_kind_of_training_without_a_load() =>
        Told("rules/ledger.json", "/training", "hills is missing", Ledger(r => r with { Training = [.. r.Training.Where(t => t.Kind != "hills")] }));

    [Fact]
    public void A_kind_kept_for_no_rule() =>
        Told("rules/session.json", "/balance/kinds/balance-after-ankle/protective", "\"ghost\"", Session(r => r with
        {
            Balance = r.Balance with { Kinds = [.. r.Balance.Kinds.Select(k => k.Protective is null ? k : k with { Protective = "ghost" })] },
        }));

    [Fact]
    public void A_day_of_competition_in_an_unknown_slot() =>
        Told("rules/week.json", "/onTheDay/slots", "\"noon\"", Check(Good.With(week: Good.Week with { OnTheDay = Good.Week.OnTheDay! with { Slots = ["noon"] } })));

    [Fact]
    public void A_pattern_of_no_part_of_the_body() =>
        Told("rules/substitution.json", "/bodyParts", "crawl-carry is of no part", Check(Good.With(substitution: Good.Substitution with
        {
            BodyParts = [.. Good.Substitution.BodyParts!.Select(b => b with { Patterns = [.. b.Patterns.Where(p => p != "crawl-carry")] })],
        })));

    [Fact]
    public void A_sentence_with_a_gap_that_nothing_fills() =>
        Told("rules/scoring.json", "/against/says/mass-cost", "only {region} and {value}", Check(Good.With(scoring: Good.Scoring with
        {
            Against = Good.Scoring.Against! with { Says = [new("mass-cost", "upper-body-mass", "It costs {kilos}.")] },
        })));

    [Fact]
    public void A_load_like_an_unknown_exercise() => Told("rules/ledger.json", "/training/tempo/measures/minutes", "\"sit-around\"", Training("tempo", m => m with { Like = "sit-around" }));

    [Fact]
    public void A_load_on_an_unknown_region() => Told("rules/ledger.json", "/training/tempo/measures/minutes/sidedRegions", "\"tail\"", Training("tempo", m => m with { SidedRegions = ["tail"] }));

    [Fact]
    public void A_kind_that_counts_as_one_without_measures() =>
        Told("rules/ledger.json", "/training/testing/asKind/sprints", "no measures of its own", Ledger(r => r with
        {
            Training = [.. r.Training.Select(t => t.Kind == "testing" ? t with { AsKind = t.AsKind!.ToDictionary(k => k.Key, k => k.Key == "sprints" ? "competition" : k.Value) } : t)],
        }));

    [Fact]
    public void Usual_work_that_misses_a_unit() =>
        Told("rules/ledger.json", "/usualWork/amount", "Metres is missing", Ledger(r => r with { UsualWork = r.UsualWork with { Amount = r.UsualWork.Amount.Where(a => a.Key != DoseUnit.Metres).ToDictionary() } }));

    [Fact]
    public void Returns_that_rise() => Told("rules/session.json", "/objective/nthShare", "only diminish", Session(r => r with { Objective = r.Objective with { NthShare = [0.5m, 1] } }));

    [Fact]
    public void More_picks_than_may_be_asked_for() => Told("rules/session.json", "/picks", "above most", Session(r => r with { Picks = r.Picks with { Usual = 13 } }));

    [Fact]
    public void Budgets_that_rise_with_pain() =>
        Told("rules/session.json", "/soreBudgets/steps", "never rise", Session(r => r with { SoreBudgets = r.SoreBudgets with { Steps = [new(5, 100), new(10, 200)] } }));

    [Fact]
    public void Blocks_that_leave_an_exercise_out() =>
        Told("rules/session.json", "/blocks", "belongs to no block", Session(r => r with { Blocks = [.. r.Blocks.Where(b => b.Block != "mobility")] }), onlyHere: true);

    [Fact]
    public void An_unknown_station() => Told("rules/session.json", "/supersets/stations", "\"throne\"", Session(r => r with { Supersets = r.Supersets with { Stations = ["throne"] } }));

    private static IReadOnlyList<KnowledgeFault> Ledger(Func<LedgerRules, LedgerRules> change) => Check(Good.With(ledger: change(Good.Ledger)));

    private static IReadOnlyList<KnowledgeFault> Training(string kind, Func<TrainingMeasure, TrainingMeasure> change) =>
        Ledger(r => r with { Training = [.. r.Training.Select(t => t.Kind == kind ? t with { Measures = [.. t.Measures.Select(change)] } : t)] });

    private static IReadOnlyList<KnowledgeFault> Session(Func<SessionRules, SessionRules> change) => Check(Good.With(session: change(Good.Session)));

    private static IReadOnlyList<KnowledgeFault> Check(KnowledgeBase knowledge) =>
        KnowledgeChecks.Of(knowledge, TestEdition.Current.Catalogue.Exercises, TestEdition.Vocabulary, EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]);

    private static void Told(string file, string pointer, string reason, IReadOnlyList<KnowledgeFault> faults, bool onlyHere = true)
    {
        Assert.Contains(faults, f => f.File == file && f.Pointer == pointer && f.Reason.Contains(reason, StringComparison.Ordinal));
        Assert.True(!onlyHere || faults.All(f => f.File == file && f.Pointer == pointer), string.Join('\n', faults));
    }
}
