using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

public sealed class ComplaintRuleChecksTests
{
    private static KnowledgeBase Good => TestEdition.Knowledge;

    private static Programme Tendon => Good.ProgrammeOf("patellar-tendon")!;

    /// <summary>A club may take one of several out of its catalogue; the data folder itself misspells none.</summary>
    [Fact]
    public void Every_exercise_that_protects_is_in_the_shipped_catalogue() =>
        Assert.All(Good.Returning.Protective!.SelectMany(r => r.Exercises), id => Assert.NotNull(TestEdition.Current.Catalogue.Find(id)));

    [Fact]
    public void One_of_several_that_protect_may_be_out_of_the_catalogue() =>
        Assert.DoesNotContain(
            Check(Good.With(returning: Good.Returning with { Protective = [Good.Returning.Protective![0] with { Exercises = ["dance", Good.Returning.Protective![0].Exercises[0]] }] })),
            f => f.File == "rules/return.json");

    [Fact]
    public void The_rules_themselves_have_no_fault() => Assert.Empty(Check(Good));

    [Fact]
    public void A_treatment_that_the_stage_itself_blocks() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/isometric/treatment", "drop-jump is what the stage gives and is held for patellar-tendon", Check(Stage(0, s => s with { Treatment = ["drop-jump"] })));

    [Fact]
    public void A_treatment_that_pain_blocks() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/slow-heavy/treatment", "pain 3 allows 6.6", Check(Stage(1, s => s with { Treatment = ["back-squat"], TreatmentPain = [2, 4] })));

    [Fact]
    public void A_treatment_that_the_stage_holds() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/isometric/treatment", "the stage holds \"fast\"",
            Check(Stage(0, s => s with { Treatment = ["kettlebell-swing"], Holds = ["fast"], TreatmentPain = [0, 1] })));

    [Fact]
    public void A_treatment_that_the_catalogue_lacks() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/isometric/treatment", "\"dance\"", Check(Stage(0, s => s with { Treatment = ["dance"] })));

    [Fact]
    public void A_later_stage_that_closes() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/slow-heavy/holds", "stages only open", Check(Stage(1, s => s with { Holds = ["landing-any"] })));

    [Fact]
    public void A_later_stage_with_a_lower_limit() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/slow-heavy/maxTissueLoad", "limits only rise",
            Check(Stage(1, s => s with { MaxTissueLoad = new Dictionary<LoadingRate, decimal>(s.MaxTissueLoad) { [LoadingRate.Impact] = 1 } })));

    [Fact]
    public void A_later_stage_at_more_pain() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/return", "at more pain than the stage before", Check(Stage(3, s => s with { EntryMaxPain = 3, StayMaxPain = 4 })));

    [Fact]
    public void A_stage_that_is_missing() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages", "all four stages", Check(With(Tendon with { Stages = [.. Tendon.Stages.Take(3)] })));

    [Fact]
    public void A_first_step_that_is_not_the_dose() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/slow-heavy/doses/patellar-slow-heavy/steps", "first step", Check(Stage(1, s => s with { Doses = [s.Doses[0] with { Sets = 9 }] })));

    [Fact]
    public void Two_programmes_of_one_region() =>
        Told("rules/programmes.json", "/programmes", "patellar-tendon has two programmes", ComplaintRuleChecks.Of(Good.With(programmes: Good.Programmes with { Programmes = [.. Good.Programmes.Programmes, Tendon with { Id = "again" }] }),
            TestEdition.Current.Catalogue.Exercises, TestEdition.Vocabulary), onlyHere: false);

    [Fact]
    public void A_provocation_that_holds_nothing() =>
        Told("rules/provocation.json", "/rules", "what landing holds", Check(Good.With(provocation: Good.Provocation with { Rules = [.. Good.Provocation.Rules.Where(r => r.ProvokedBy != "landing")] })));

    [Fact]
    public void A_hold_that_is_no_rule() =>
        Told("rules/pain.json", "/acute/holds", "\"ghost\"", Check(Good.With(pain: Good.Pain with { Acute = Good.Pain.Acute with { Holds = ["ghost"] } })));

    [Fact]
    public void An_exercise_of_a_match_that_the_catalogue_lacks() =>
        Told("rules/provocation.json", "/rules/landing-any", "\"dance\"", Check(Good.With(provocation: Good.Provocation with
        {
            Rules = [.. Good.Provocation.Rules.Select(r => r.Id == "landing-any" ? r with { Match = new(Exercises: ["dance"]) } : r)],
        })));

    [Fact]
    public void A_tissue_without_a_rule() =>
        Told("rules/pain.json", "/tissues", "nerve must have exactly one rule", Check(Good.With(pain: Good.Pain with { Tissues = [.. Good.Pain.Tissues.Where(t => t.Id != "nerve")] })));

    [Fact]
    public void A_tissue_with_limits_of_nothing() =>
        Told("rules/pain.json", "/tissues/nerve/limitsOf", "\"ghost\"", Check(Good.With(pain: Good.Pain with { Tissues = [.. Good.Pain.Tissues.Select(t => t.Id == "nerve" ? t with { LimitsOf = ["ghost"] } : t)] })));

    [Fact]
    public void Longer_time_off_that_gives_more() =>
        Told("rules/return.json", "/layoffs", "longer off for injury", Check(Good.With(returning: Good.Returning with { Layoffs = [.. Good.Returning.Layoffs.Select((l, i) => i == 0 ? l with { VolumeShare = 0.9m } : l)] })), onlyHere: false);

    [Fact]
    public void A_history_that_grows_with_time() =>
        Told("rules/return.json", "/history/steps", "never rise", Check(Good.With(returning: Good.Returning with { History = Good.Returning.History with { Steps = [new(6, 0.1m), new(12, 0.5m)] } })));

    [Fact]
    public void A_hold_after_time_off_on_an_unknown_exercise() =>
        Told("rules/return.json", "/layoffHolds/very-sore-first-week", "\"dance\"", Check(Good.With(returning: Good.Returning with { LayoffHolds = [Good.Returning.LayoffHolds![0] with { Refuses = [new(Exercises: ["dance"])] }] })));

    [Fact]
    public void Something_kept_for_an_unknown_region_or_by_an_unknown_exercise()
    {
        var rule = Good.Returning.Protective![0];
        Told("rules/return.json", "/protective/ankle-balance", "\"tail\"", Check(Good.With(returning: Good.Returning with { Protective = [rule with { Regions = ["tail"] }] })));
        Told("rules/return.json", "/protective/ankle-balance", "none of its exercises", Check(Good.With(returning: Good.Returning with { Protective = [rule with { Exercises = ["dance"] }] })));
    }

    [Fact]
    public void A_published_dose_without_a_source() =>
        Told("rules/programmes.json", "/programmes/patellar-tendon/stages/isometric/doses/patellar-isometric-holds", "published without a source",
            Check(Stage(0, s => s with { Doses = [s.Doses[0] with { Source = null }] })));

    private static KnowledgeBase Stage(int at, Func<ProgrammeStage, ProgrammeStage> change) =>
        With(Tendon with { Stages = [.. Tendon.Stages.Select((s, i) => i == at ? change(s) : s)] });

    private static KnowledgeBase With(Programme tendon) =>
        Good.With(programmes: Good.Programmes with { Programmes = [.. Good.Programmes.Programmes.Select(p => p.Id == tendon.Id ? tendon : p)] });

    private static IReadOnlyList<KnowledgeFault> Check(KnowledgeBase knowledge) => ComplaintRuleChecks.Of(knowledge, TestEdition.Current.Catalogue.Exercises, TestEdition.Vocabulary);

    private static void Told(string file, string pointer, string says, IReadOnlyList<KnowledgeFault> faults, bool onlyHere = true)
    {
        Assert.Contains(faults, f => f.File == file && f.Pointer == pointer && f.Reason.Contains(says, StringComparison.Ordinal));
        Assert.True(!onlyHere || faults.All(f => f.File == file && f.Pointer == pointer), string.Join("\n", faults.Select(f => $"{f.File}{f.Pointer}: {f.Reason}")));
    }
}
