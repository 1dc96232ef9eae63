using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class NeedMatchTests
{
    // Weights 0.6, 0.3 and 0.1; ratings 1, 2, 3 fit 0.25, 0.65, 1; the second best counts 70 %, further ones 50 %.
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge
        .WithProfile("long-jump", p => p with { Qualities = new Dictionary<string, decimal> { ["max-strength"] = 6, ["grip"] = 3, ["upper-pull"] = 1 }, Basis = Basis.CommonPractice })
        .WithGroup("jumps", g => g with { PhaseEmphasis = g.PhaseEmphasis with { Default = 1, Phases = g.PhaseEmphasis.Phases.ToDictionary(p => p.Key, _ => (IReadOnlyDictionary<string, decimal>)new Dictionary<string, decimal>()) } })
        .With(scoring: TestEdition.Knowledge.Scoring with { NeedMatch = TestEdition.Knowledge.Scoring.NeedMatch with { MaxPoints = 100, FitByRating = [0, 0.25m, 0.65m, 1], NthShare = [1, 0.7m, 0.5m] } });

    [Fact]
    public void A_primary_exercise_for_one_need_gets_its_weight() => Verify(ExerciseBuilder.Named().Rated("max-strength", 3)).Gives(60, ("need:max-strength", 60));

    [Fact]
    public void A_lower_rating_fits_less() => Verify(ExerciseBuilder.Named().Rated("max-strength", 1)).Gives(15, ("need:max-strength", 15));

    [Fact]
    public void Further_needs_count_for_less_in_the_order_of_what_they_bring() =>
        Verify(ExerciseBuilder.Named().Rated("upper-pull", 1).Rated("grip", 2).Rated("max-strength", 3))
            .Gives(60 + 13.65m + 1.25m, ("need:max-strength", 60), ("need:grip", 13.65m), ("need:upper-pull", 1.25m));

    [Fact]
    public void The_last_share_holds_for_all_further_ones()
    {
        var rules = Rules.With(scoring: Rules.Scoring with { NeedMatch = Rules.Scoring.NeedMatch with { NthShare = [1, 0.5m] } });
        Verify(ExerciseBuilder.Named().Rated("upper-pull", 3).Rated("grip", 3).Rated("max-strength", 3)).Under(rules)
            .Gives(60 + 15 + 5, ("need:max-strength", 60), ("need:grip", 15), ("need:upper-pull", 5));
    }

    [Fact]
    public void What_is_not_needed_brings_nothing_and_is_not_mentioned() => Verify(ExerciseBuilder.Named().Rated("muscle-mass", 3)).Gives(0);

    [Fact]
    public void Tells_rating_and_need_and_rests_on_the_weaker_of_both()
    {
        var detail = Assert.Single(Verify(ExerciseBuilder.Named().Rated("max-strength", 2, Basis.Recalled)).Gives(39, ("need:max-strength", 39)));
        Assert.Equal((2m, 3m), (detail.Value, detail.Limit));
        Assert.Contains("rated 2 of 3, need 60 %", detail.Label, StringComparison.Ordinal);
        Assert.Equal(Basis.Recalled, detail.Basis);
        Assert.Equal(Basis.CommonPractice, Assert.Single(Verify(ExerciseBuilder.Named().Rated("max-strength", 2, Basis.Published, "scattone-silva-2024")).Gives(39, ("need:max-strength", 39))).Basis);
    }

    private static FactorVerifier Verify(Exercise exercise) => FactorVerifier.Of<NeedMatch>().Under(Rules).Given(RequestBuilder.For("jumps").Doing("long-jump")).AskedAbout(exercise);
}
