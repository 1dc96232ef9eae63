using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

public sealed class CatalogueChecksTests
{
    [Fact]
    public void The_catalogue_itself_has_no_fault() => Assert.Empty(Check([.. TestEdition.Current.Catalogue.Exercises]));

    [Fact]
    public void A_good_ladder_has_no_fault() => Assert.Empty(Check(Plain("a") with { Progressions = ["b"] }, Plain("b") with { Regressions = ["a"] }));

    [Fact]
    public void An_id_used_twice() => Told("id", "\"a\" is used twice", Plain("a"), Plain("a"));

    [Fact]
    public void A_synonym_that_names_another_exercise_in_any_letter_case() => Told("synonyms", "\"Long Lunge\" already names a", Plain("a") with { Synonyms = ["long lunge"] }, Plain("b") with { Synonyms = ["Long Lunge"] });

    [Fact]
    public void A_name_that_is_another_ones_synonym() => Told("synonyms", "already names a", Plain("a") with { Synonyms = ["b"] }, Plain("b"));

    [Fact]
    public void An_unknown_pattern() => Told("pattern", "\"dance\" is not in the vocabulary", Plain() with { Pattern = "dance" });

    [Fact]
    public void An_unknown_direction() => Told("direction", "\"inward\"", Plain() with { Direction = "inward" });

    [Fact]
    public void An_unknown_contraction() => Told("contraction", "\"lazy\"", Plain() with { Contraction = "lazy" });

    [Fact]
    public void An_unknown_quality() => Told("qualities/charm", "\"charm\"", ExerciseBuilder.Named().Rated("max-strength", 3).Rated("charm", 1));

    [Fact]
    public void Nothing_it_is_strong_for() => Told("qualities", "must be strong for something", ExerciseBuilder.Named().Rated("grip", 1));

    [Fact]
    public void A_published_rating_without_a_source() => Told("qualities/grip", "published without a source", ExerciseBuilder.Named().Rated("grip", 3, Basis.Published));

    [Fact]
    public void A_source_that_does_not_exist() => Told("qualities/grip", "source \"nobody-1900\" is not in sources.json", ExerciseBuilder.Named().Rated("grip", 3, Basis.CommonPractice, "nobody-1900"));

    [Fact]
    public void An_unknown_region() => Told("tissueLoad/tail", "\"tail\"", ExerciseBuilder.Named().Loads("tail", 2));

    [Fact]
    public void A_published_load_without_a_source() => Told("tissueLoad/hip", "published without a source", ExerciseBuilder.Named().Loads("hip", 2, basis: Basis.Published));

    [Fact]
    public void A_value_outside_its_interval() => Told("tissueLoad/hip", "low <= value <= high", ExerciseBuilder.Named().Loads("hip", 2, high: 1));

    [Fact]
    public void A_load_on_a_region_for_complaints_only() => Told("tissueLoad/knee", "complaint region only; give patellar-tendon and patellofemoral", ExerciseBuilder.Named().Loads("knee", 2));

    [Fact]
    public void Unknown_equipment() => Told("equipment/1", "\"wand\"", ExerciseBuilder.Named().Needing("band").Needing("wand"));

    [Fact]
    public void A_set_that_names_a_thing_twice() => Told("equipment/0", "named twice", ExerciseBuilder.Named().Needing("band", "band"));

    [Fact]
    public void A_set_that_asks_for_one_dumbbell_and_for_a_pair() => Told("equipment/0", "a pair serves as one", ExerciseBuilder.Named().Needing("dumbbell", "dumbbells"));

    [Fact]
    public void An_unknown_place() => Told("places", "\"moon\"", Plain() with { Places = ["moon"] });

    [Fact]
    public void An_unknown_competence() => Told("competences", "\"flying\"", ExerciseBuilder.Named().Asking("flying"));

    [Fact]
    public void A_landing_without_contacts() => Told("impactContacts", "impact work has contacts", Plain() with { LoadingRate = LoadingRate.Impact });

    [Fact]
    public void Contacts_without_a_landing() => Told("impactContacts", "other work has none", Plain() with { ImpactContacts = 1 });

    [Fact]
    public void A_progression_that_does_not_exist() => Told("progressions", "\"ghost\" is not in the catalogue", Plain() with { Progressions = ["ghost"] });

    [Fact]
    public void A_regression_that_does_not_exist() => Told("regressions", "\"ghost\" is not in the catalogue", Plain() with { Regressions = ["ghost"] });

    [Fact]
    public void A_ladder_that_goes_up_only() => Told("progressions", "b does not name a among its regressions", Plain("a") with { Progressions = ["b"] }, Plain("b"));

    [Fact]
    public void A_ladder_that_goes_down_only() => Told("regressions", "a does not name b among its progressions", Plain("a"), Plain("b") with { Regressions = ["a"] });

    [Fact]
    public void A_ladder_that_runs_in_a_circle() =>
        Told("progressions", "run in a circle: a - b - c - a", Plain("a") with { Progressions = ["b"], Regressions = ["c"] }, Plain("b") with { Progressions = ["c"], Regressions = ["a"] },
            Plain("c") with { Progressions = ["a"], Regressions = ["b"] });

    [Fact]
    public void A_ladder_that_meets_again_without_a_circle_is_no_fault() =>
        Assert.Empty(Check(Plain("a") with { Progressions = ["b", "c"] }, Plain("b") with { Progressions = ["d"], Regressions = ["a"] }, Plain("c") with { Progressions = ["d"], Regressions = ["a"] },
            Plain("d") with { Regressions = ["b", "c"] }));

    [Fact]
    public void All_faults_are_told_at_once() => Assert.Equal(3, Check(Plain() with { Pattern = "dance", Direction = "inward", Places = ["moon"] }).Count);

    [Fact]
    public void A_fault_names_file_pointer_and_reason() => Assert.StartsWith("exercises/own.json#/exercises/0/pattern: \"dance\"", Assert.Single(Check(Plain() with { Pattern = "dance" })).ToString(), StringComparison.Ordinal);

    private static Exercise Plain(string id = "plain") => ExerciseBuilder.Named(id);

    private static IReadOnlyList<KnowledgeFault> Check(params Exercise[] exercises) =>
        CatalogueChecks.Of([.. exercises.Select((e, i) => new ReadExercise("exercises/own.json", $"/exercises/{i}", e))], TestEdition.Vocabulary, TestEdition.Knowledge.Sources.Select(s => s.Id).ToHashSet());

    private static void Told(string at, string reason, params Exercise[] exercises)
    {
        var fault = Assert.Single(Check(exercises));
        Assert.EndsWith("/" + at, fault.Pointer, StringComparison.Ordinal);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }
}
