using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

public sealed class KnowledgeChecksTests
{
    private static KnowledgeBase Good => TestEdition.Knowledge;

    private static readonly ExerciseMatch Unknown = new(Patterns: ["dance"]);

    [Fact]
    public void The_rules_themselves_have_no_fault() => Assert.Empty(Check(Good));

    [Fact]
    public void A_reason_that_the_vocabulary_lacks() =>
        Told("vocabulary.json", "/reasons", "\"bored\"", KnowledgeChecks.Of(Good, [], TestEdition.Vocabulary, ["bored"], []), onlyHere: false);

    [Fact]
    public void A_factor_that_the_vocabulary_lacks() =>
        Told("vocabulary.json", "/factors", "\"charm\"", KnowledgeChecks.Of(Good, [], TestEdition.Vocabulary, [], ["charm"]), onlyHere: false);

    [Fact]
    public void Words_that_the_program_knows_by_place_in_another_order() =>
        Told("vocabulary.json", "/loadingRates", "in this order: isometric, slow, fast, impact", Check(Good, TestEdition.Vocabulary with { LoadingRates = new(TestEdition.Vocabulary.LoadingRates.Reverse()) }));

    [Fact]
    public void More_equipment_than_a_mask_holds() =>
        Told("vocabulary.json", "/equipment", "at most 64", Check(Good, TestEdition.Vocabulary with
        {
            Equipment = new([.. TestEdition.Vocabulary.Equipment, .. Enumerable.Range(0, 30).Select(i => new Term { Id = $"thing-{i}", Label = "", Definition = "" })]),
        }));

    [Fact]
    public void A_region_that_leans_on_one_that_does_not_exist() =>
        Told("vocabulary.json", "/regions/hip", "\"tail\"", Check(Good, TestEdition.Vocabulary with { Regions = new(TestEdition.Vocabulary.Regions.Select(r => r.Id == "hip" ? r with { LeansOn = "tail" } : r)) }));

    [Fact]
    public void An_event_without_a_profile() =>
        Told("event-profiles/throws.json", "/events", "javelin has no profile", Check(Good.WithGroup("throws", g => g with { Events = [.. g.Events.Where(e => e.Event != "javelin")] })));

    [Fact]
    public void A_profile_of_another_groups_event() =>
        Told("event-profiles/throws.json", "/events/long-jump", "not an event of throws", Check(Good.With(eventGroups: [.. Good.EventGroups.Select(g =>
            g.EventGroup == "jumps" ? g with { Events = [.. g.Events.Where(e => e.Event != "long-jump")] }
            : g.EventGroup == "throws" ? g with { Events = [.. g.Events, Good.ProfileOf("long-jump")] } : g)])), onlyHere: false);

    [Fact]
    public void A_phase_that_is_missing() =>
        Told("event-profiles/jumps.json", "/phaseEmphasis/phases", "Taper is missing", Check(Good.WithGroup("jumps", g => g with
        {
            PhaseEmphasis = g.PhaseEmphasis with { Phases = g.PhaseEmphasis.Phases.Where(p => p.Key != Phase.Taper).ToDictionary() },
        })));

    [Fact]
    public void An_unknown_quality_in_a_profile() =>
        Told("event-profiles/jumps.json", "/events/long-jump/qualities", "\"charm\"", Check(Good.WithProfile("long-jump", p => p with { Qualities = new Dictionary<string, decimal>(p.Qualities) { ["charm"] = 1 } })));

    [Fact]
    public void A_profile_with_nothing_to_train_in_a_phase() =>
        Told("event-profiles/jumps.json", "/events/long-jump/qualities", "nothing is left to train", Check(Good.WithProfile("long-jump", p => p with { Qualities = new Dictionary<string, decimal> { ["grip"] = 0 } })));

    [Fact]
    public void A_published_profile_without_a_source() =>
        Told("event-profiles/jumps.json", "/events/long-jump", "published without a source", Check(Good.WithProfile("long-jump", p => p with { Basis = Basis.Published, Source = null })));

    [Fact]
    public void An_unknown_region_at_risk() =>
        Told("event-profiles/jumps.json", "/events/long-jump/regionsAtRisk", "\"tail\"", Check(Good.WithProfile("long-jump", p => p with { RegionsAtRisk = [new("tail", 1, Basis.CommonPractice)] })));

    [Fact]
    public void A_study_of_a_region_at_risk_that_does_not_exist() =>
        Told("event-profiles/jumps.json", "/events/long-jump/regionsAtRisk/hip", "\"nobody-1900\"",
            Check(Good.WithProfile("long-jump", p => p with { RegionsAtRisk = [new("hip", 1, Basis.CommonPractice, Support: "nobody-1900")] })));

    [Fact]
    public void An_unknown_direction_of_an_event() =>
        Told("event-profiles/jumps.json", "/events/long-jump/correspondence/direction", "\"inward\"",
            Check(Good.WithProfile("long-jump", p => p with { Correspondence = p.Correspondence with { Direction = new Dictionary<string, decimal> { ["inward"] = 1 } } })));

    [Fact]
    public void An_importance_without_a_weight() =>
        Told("rules/needs.json", "/importances", "high is missing", Check(Good.With(needs: Good.Needs with { Importances = Good.Needs.Importances.Where(i => i.Key != "high").ToDictionary() })));

    [Fact]
    public void A_complaint_need_for_an_unknown_region()
    {
        var rule = Good.Needs.Complaints[0];
        Told("rules/needs.json", $"/complaints/{rule.Id}/regions", "\"tail\"", Check(Good.With(needs: Good.Needs with { Complaints = [rule with { Regions = ["tail"] }] })));
    }

    [Fact]
    public void A_region_without_limits() =>
        Told("rules/pain.json", "/limits", "lower-back stands in 0 limits", Check(Good.With(pain: Good.Pain with { Limits = [.. Good.Pain.Limits.Where(l => !l.Regions.Contains("lower-back"))] })));

    [Fact]
    public void Limits_that_rise_with_pain() =>
        Told("rules/pain.json", "/limits/ankle/maxTissueLoad/slow", "limits only fall", Check(WithLimit("ankle", LoadingRate.Slow, [10, 5, 5, 5, 5.1m, 1, 1, 1, 1, 1, 1])));

    [Fact]
    public void Limits_that_do_not_cover_all_of_pain() =>
        Told("rules/pain.json", "/limits/ankle/maxTissueLoad/impact", "eleven limits", Check(WithLimit("ankle", LoadingRate.Impact, [10, 5])));

    [Fact]
    public void A_loading_rate_without_limits() =>
        Told("rules/pain.json", "/limits/ankle/maxTissueLoad/fast", "eleven limits", Check(WithLimit("ankle", LoadingRate.Fast, null)));

    [Fact]
    public void Youth_limits_that_do_not_exist() =>
        Told("rules/pain.json", "/youth/limitsOf", "\"ghost\"", Check(Good.With(pain: Good.Pain with { Youth = Good.Pain.Youth with { LimitsOf = "ghost" } })));

    [Fact]
    public void An_unknown_neighbour_of_a_flagged_region() =>
        Told("rules/pain.json", "/redFlagSpares/hip", "\"tail\"", Check(Good.With(pain: Good.Pain with { RedFlagSpares = new Dictionary<string, IReadOnlyList<string>> { ["hip"] = ["tail"] } })));

    [Fact]
    public void A_peaking_window_about_an_unknown_pattern() =>
        Told("rules/peaking.json", "/windows/w", "\"dance\"", Check(Good.With(peaking: new([new("w", null, 1, Unknown, null, "", Basis.CommonPractice)], []))));

    [Fact]
    public void A_peaking_window_of_an_unknown_group() =>
        Told("rules/peaking.json", "/windows/w/eventGroups", "\"swims\"", Check(Good.With(peaking: new([new("w", ["swims"], 1, new(), null, "", Basis.CommonPractice)], []))));

    [Fact]
    public void A_recovery_window_that_is_published_without_a_source() =>
        Told("rules/peaking.json", "/recovery/r", "published without a source", Check(Good.With(peaking: new([], [new("r", new(), 2, "", Basis.Published)]))));

    [Fact]
    public void Competences_that_do_not_start_at_nothing() =>
        Told("rules/competence.json", "/byTrainingAge", "start at 0 years", Check(Good.With(competence: Good.Competence with { ByTrainingAge = [.. Good.Competence.ByTrainingAge.Skip(1)] })));

    [Fact]
    public void A_complexity_without_years() =>
        Told("rules/competence.json", "/trainingAgeByComplexity", "1, 2, 3, 4", Check(Good.With(competence: Good.Competence with { TrainingAgeByComplexity = [.. Good.Competence.TrainingAgeByComplexity.Take(3)] })));

    [Fact]
    public void An_age_rule_about_an_unknown_quality() =>
        Told("rules/competence.json", "/ages/a", "\"charm\"",
            Check(Good.With(competence: Good.Competence with { Ages = [new("a", 14, null, new(Qualities: new Dictionary<string, int> { ["charm"] = 2 }), null, "", Basis.CommonPractice)] })));

    [Theory]
    [InlineData(14, 50)]
    [InlineData(null, null)]
    public void An_age_rule_that_is_about_both_or_neither_the_younger_and_the_older(int? below, int? from) =>
        Told("rules/competence.json", "/ages/a", "one of them", Check(Good.With(competence: Good.Competence with { Ages = [new("a", below, from, new(), null, "", Basis.CommonPractice)] })));

    [Fact]
    public void Shares_of_correspondence_that_do_not_sum_to_one() =>
        Told("rules/scoring.json", "/correspondence", "sum to 1", Check(Good.With(scoring: Good.Scoring with { Correspondence = Good.Scoring.Correspondence with { SupportShare = 0.9m } })));

    [Fact]
    public void A_rating_of_nothing_that_fits() =>
        Told("rules/scoring.json", "/needMatch", "the first 0", Check(Good.With(scoring: Good.Scoring with { NeedMatch = Good.Scoring.NeedMatch with { FitByRating = [0.1m, 0.2m, 0.3m, 1] } })));

    [Fact]
    public void A_phase_without_points() =>
        Told("rules/scoring.json", "/phaseFit/loadBand", "needs six", Check(Good.With(scoring: Good.Scoring with
        {
            PhaseFit = Good.Scoring.PhaseFit with { LoadBand = Good.Scoring.PhaseFit.LoadBand.ToDictionary(b => b.Key, b => b.Key == LoadBand.Heavy ? [.. b.Value.Take(5)] : b.Value) },
        })));

    [Fact]
    public void A_loading_rate_without_a_factor_of_tissue_cost() =>
        Told("rules/scoring.json", "/tissueCost/rateFactor", "Impact is missing", Check(Good.With(scoring: Good.Scoring with
        {
            TissueCost = Good.Scoring.TissueCost with { RateFactor = Good.Scoring.TissueCost.RateFactor.Where(r => r.Key != LoadingRate.Impact).ToDictionary() },
        })));

    [Fact]
    public void A_soreness_risk_without_a_share() =>
        Told("rules/scoring.json", "/freshness/bySorenessRisk", "four shares", Check(Good.With(scoring: Good.Scoring with { Freshness = Good.Scoring.Freshness with { BySorenessRisk = [0, 1] } })));

    [Fact]
    public void An_unknown_upper_body_pattern() =>
        Told("rules/scoring.json", "/massCost/upperBodyOnlyPatterns", "\"dance\"", Check(Good.With(scoring: Good.Scoring with { MassCost = Good.Scoring.MassCost with { UpperBodyOnlyPatterns = ["dance"] } })));

    [Fact]
    public void A_threshold_without_a_side()
    {
        var threshold = Good.Tests.Thresholds[0];
        Told("tests/battery.json", $"/thresholds/{threshold.Id}", "below or above", Check(Good.With(tests: Good.Tests with { Thresholds = [threshold with { Below = null, Above = null }] })));
    }

    [Fact]
    public void A_threshold_that_raises_an_unknown_quality()
    {
        var threshold = Good.Tests.Thresholds[0];
        Told("tests/battery.json", $"/thresholds/{threshold.Id}/raises", "\"charm\"", Check(Good.With(tests: Good.Tests with { Thresholds = [threshold with { Raises = new Dictionary<string, decimal> { ["charm"] = 0.1m } }] })));
    }

    [Theory]
    [InlineData("charmCm")]
    [InlineData("relativeStrength/sit-around")]
    [InlineData("kneeToWallCm/back-squat")]
    public void A_threshold_of_a_measure_that_nothing_gives(string measure)
    {
        var threshold = Good.Tests.Thresholds[0] with { Measure = measure };
        Told("tests/battery.json", $"/thresholds/{threshold.Id}/measure", "no test and no derived measure", Check(Good.With(tests: Good.Tests with { Thresholds = [threshold] })));
    }

    [Fact]
    public void A_threshold_that_adds_more_than_a_measure_may()
    {
        var threshold = Good.Tests.Thresholds[0] with { Raises = new Dictionary<string, decimal> { ["grip"] = 0.1m, ["upper-pull"] = 0.1m } };
        Told("tests/battery.json", $"/thresholds/{threshold.Id}/raises", "the cap of a measure", Check(Good.With(tests: Good.Tests with { Thresholds = [threshold] })));
    }

    [Fact]
    public void An_error_said_to_be_published_without_a_source()
    {
        var threshold = Good.Tests.Thresholds[0] with { ErrorBasis = Basis.Published, ErrorSource = null };
        Told("tests/battery.json", $"/thresholds/{threshold.Id}", "published without a source", Check(Good.With(tests: Good.Tests with { Thresholds = [threshold] })));
    }

    [Fact]
    public void Two_rules_of_one_id() =>
        Told("tests/battery.json", "/thresholds", "stands twice", Check(Good.With(tests: Good.Tests with { Thresholds = [Good.Tests.Thresholds[0], Good.Tests.Thresholds[0]] })));

    [Fact]
    public void A_difference_of_the_sides_that_nothing_gives_or_shows_or_groups()
    {
        var rule = Good.Tests.Sides.Rules[0];
        IReadOnlyList<KnowledgeFault> With(SideRule changed) => Check(Good.With(tests: Good.Tests with { Sides = Good.Tests.Sides with { Rules = [changed] } }));
        Told("tests/battery.json", $"/sides/rules/{rule.Id}/of", "\"charmCm\"", With(rule with { Of = "charmCm" }));
        Told("tests/battery.json", $"/sides/rules/{rule.Id}/measure", "\"charm\"", With(rule with { Measure = "charm" }));
        Told("tests/battery.json", $"/sides/rules/{rule.Id}/group", "\"tail\"", With(rule with { Group = "tail" }));
        Told("tests/battery.json", $"/sides/rules/{rule.Id}/raises", "\"charm\"", With(rule with { Raises = new Dictionary<string, decimal> { ["charm"] = 0.01m } }));
    }

    [Fact]
    public void A_habit_of_an_unknown_event() =>
        Told("tests/battery.json", $"/sides/habits/{Good.Tests.Sides.Habits[0].Id}/events", "\"long-swim\"",
            Check(Good.With(tests: Good.Tests with { Sides = Good.Tests.Sides with { Habits = [Good.Tests.Sides.Habits[0] with { Events = ["long-swim"] }] } })));

    [Fact]
    public void Usual_weeks_that_miss_a_phase() =>
        Told("rules/defaults.json", "/weeksByPhase", "needs six", Check(Good.With(defaults: Good.Defaults with { WeeksByPhase = [1, 2, 3] })));

    [Fact]
    public void An_unknown_usual_place() => Told("rules/defaults.json", "/place", "\"moon\"", Check(Good.With(defaults: Good.Defaults with { Place = "moon" })));

    [Fact]
    public void A_quality_without_a_goal() =>
        Told("rules/dose.json", "/goals", "grip has no goal", Check(Good.With(dose: Good.Dose with { Goals = Good.Dose.Goals.Where(g => g.Key != "grip").ToDictionary() })), onlyHere: false);

    [Fact]
    public void A_goal_and_unit_that_no_row_without_conditions_doses() =>
        Told("rules/dose.json", "/rows", "no row without conditions doses strength in Reps", Check(WithRows(r => r is { Match: null, SoreRegions: null } && r.Units.Contains(DoseUnit.Reps) ? null : r)), onlyHere: false);

    [Fact]
    public void A_row_that_misses_a_phase() => Told("rules/dose.json", $"/rows/{Good.Dose.Rows[0].Id}/sets", "needs six", Check(WithRows(r => r == Good.Dose.Rows[0] ? r with { Sets = [1] } : r)));

    [Fact]
    public void A_row_of_an_unknown_intensity() =>
        Told("rules/dose.json", $"/rows/{Good.Dose.Rows[0].Id}/intensity/kind", "\"brutal\"", Check(WithRows(r => r == Good.Dose.Rows[0] ? r with { Intensity = new("brutal") } : r)));

    [Fact]
    public void A_row_for_a_goal_that_no_quality_has() =>
        Told("rules/dose.json", $"/rows/{Good.Dose.Rows[0].Id}/goals", "\"glory\"", Check(WithRows(r => r == Good.Dose.Rows[0] ? r with { Goals = [.. r.Goals, "glory"] } : r)));

    [Fact]
    public void A_load_ratio_of_an_unknown_exercise() =>
        Told("rules/dose.json", "/loadRatios", "\"sit-around\"", Check(Good.With(dose: Good.Dose with { LoadRatios = [new("sit-around", "back-squat", 1, Basis.CommonPractice)] })));

    [Fact]
    public void All_faults_are_told_at_once() =>
        Assert.Equal(2, Check(Good.With(defaults: Good.Defaults with { Place = "moon", WeeksByPhase = [1] })).Count);

    private static KnowledgeBase WithLimit(string id, LoadingRate rate, IReadOnlyList<decimal>? limits) => Good.With(pain: Good.Pain with
    {
        Limits = [.. Good.Pain.Limits.Select(l => l.Id != id ? l : l with
        {
            MaxTissueLoad = l.MaxTissueLoad.Where(r => r.Key != rate || limits is not null).ToDictionary(r => r.Key, r => r.Key == rate ? limits! : r.Value),
        })],
    });

    private static KnowledgeBase WithRows(Func<DoseRow, DoseRow?> change) => Good.With(dose: Good.Dose with { Rows = [.. Good.Dose.Rows.Select(change).OfType<DoseRow>()] });

    private static IReadOnlyList<KnowledgeFault> Check(KnowledgeBase knowledge, Vocabulary? vocabulary = null) =>
        KnowledgeChecks.Of(knowledge, TestEdition.Current.Catalogue.Exercises, vocabulary ?? TestEdition.Vocabulary, EligibilityFilter.Gates.Select(g => g.Reason), [.. ScoringEngine.Factors.Select(f => f.Id)]);

    /// <summary>The fault is told; and every fault is at this place, unless others follow from the same change.</summary>
    private static void Told(string file, string pointer, string reason, IReadOnlyList<KnowledgeFault> faults, bool onlyHere = true)
    {
        Assert.Contains(faults, f => f.File == file && f.Pointer == pointer && f.Reason.Contains(reason, StringComparison.Ordinal));
        Assert.True(!onlyHere || faults.All(f => f.File == file && f.Pointer == pointer), string.Join('\n', faults));
    }
}
