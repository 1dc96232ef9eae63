using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Scoring;
using Recommender.Domain.Selection;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Selection;

public sealed class RankingSelectorTests
{
    private const decimal Least = 3;

    [Fact]
    public void Takes_the_best_of_each_family() =>
        Assert.Equal(["a1", "b1"], Pick(2, E("a1", "a"), E("a2", "a"), E("b1", "b")));

    [Fact]
    public void Gives_fewer_when_there_are_no_more_families() => Assert.Equal(["a1", "b1"], Pick(5, E("a1", "a"), E("a2", "a"), E("b1", "b")));

    [Theory]
    [InlineData(1, "a1 b1")]
    [InlineData(2, "a1 a2 b1")]
    [InlineData(3, "a1 a2 a3 b1")]
    public void Takes_as_many_of_a_family_as_are_asked_for(int perFamily, string expected) =>
        Assert.Equal(expected.Split(' '), PickFor(RequestBuilder.For().But(r => r with { PerFamily = perFamily }), 6,
            E("a1", "a", quality: "grip"), E("a2", "a", "hinge", "upper-pull"), E("a3", "a", "jump", "upper-push"), E("b1", "b", "trunk", "calf-capacity")));

    [Fact]
    public void Never_takes_the_same_exercise_twice() =>
        Assert.Equal(["a", "b"], PickFor(RequestBuilder.For().But(r => r with { PerFamily = 10 }), 6, E("a", quality: "grip"), E("b", quality: "grip")));

    [Fact]
    public void Fills_nothing_in_that_serves_no_need() => Assert.Equal(["a"], Pick(3, E("a"), E("b", need: Least - 0.001m), E("c", need: 0)));

    [Fact]
    public void What_just_serves_a_need_is_good_enough() => Assert.Equal(["a", "b"], Pick(3, E("a"), E("b", need: Least)));

    [Fact]
    public void Puts_off_a_third_of_one_pattern_while_others_are_left() =>
        // Half of four picks, two, may share a pattern.
        Assert.Equal(["s1", "s2", "h1", "h2"], Pick(4, E("s1"), E("s2"), E("s3"), E("h1", pattern: "hinge"), E("h2", pattern: "hinge")));

    [Fact]
    public void What_was_put_off_fills_up_in_the_order_of_the_score() =>
        Assert.Equal(["s1", "s2", "s3", "h1"], Pick(4, E("s1"), E("s2"), E("s3"), E("s4"), E("h1", pattern: "hinge")));

    [Fact]
    public void Puts_off_what_is_for_the_same_quality_while_others_are_left() =>
        Assert.Equal(["a", "b", "grip"], Pick(3, E("a", pattern: "squat"), E("b", pattern: "hinge"), E("c", pattern: "jump"), E("grip", pattern: "trunk", quality: "grip")));

    [Fact]
    public void A_family_that_was_put_off_is_not_taken_twice() =>
        Assert.Equal(["s1", "s2", "other"], Pick(4, E("s1"), E("s2"), E("s3", "f"), E("s4", "f"), E("other", "f", pattern: "jump")));

    [Fact]
    public void An_empty_ranking_gives_nothing() => Assert.Empty(Pick(6));

    [Fact]
    public void Keeps_a_seat_for_what_the_coach_asked_for_however_far_down() =>
        Assert.Equal(["a", "grip"], PickFor(Asking("grip"), 2, E("a"), E("b", pattern: "hinge"), E("c", pattern: "jump"), E("grip", pattern: "trunk", quality: "grip")));

    [Fact]
    public void Without_an_ask_the_best_are_taken() => Assert.Equal(["a", "b"], Pick(2, E("a"), E("b", pattern: "hinge", quality: "muscle-mass"), E("grip", pattern: "trunk", quality: "grip")));

    [Fact]
    public void Asks_get_no_more_than_their_share_of_seats_in_the_order_they_were_made() =>
        Assert.Equal(["a", "calf"], PickFor(Asking("calf-capacity", "grip"), 2, E("a"), E("grip", pattern: "trunk", quality: "grip"), E("calf", pattern: "calf-foot", quality: "calf-capacity")));

    [Fact]
    public void One_exercise_that_answers_two_asks_takes_one_seat()
    {
        var both = (ExerciseBuilder.Named("both").Rated("grip", 2).Rated("calf-capacity", 3).Build(), 20m);
        Assert.Equal(["a", "b", "both"], PickFor(Asking("grip", "calf-capacity"), 3, E("a"), E("b", pattern: "hinge", quality: "muscle-mass"), both, E("grip", pattern: "trunk", quality: "grip")));
    }

    [Fact]
    public void A_weak_rating_does_not_answer_an_ask() =>
        Assert.Equal(["a", "b"], PickFor(Asking("grip"), 2, E("a"), E("b", pattern: "hinge", quality: "muscle-mass"), (ExerciseBuilder.Named("weak").OfPattern("trunk").Rated("max-strength", 2).Rated("grip", 1).Build(), 20m)));

    [Fact]
    public void An_ask_for_trunk_control_is_answered_by_any_trunk_quality() =>
        Assert.Equal(["a", "side"], PickFor(Asking("trunk-control"), 2, E("a"), E("b", pattern: "hinge", quality: "muscle-mass"), E("side", pattern: "trunk", quality: "trunk-lateral")));

    private static RequestBuilder Asking(params string[] qualities) => qualities.Aggregate(RequestBuilder.For(), (request, quality) => request.Wanting(quality, "low"));

    private static IReadOnlyList<string> Pick(int count, params (Exercise Exercise, decimal Need)[] ranked) => PickFor(RequestBuilder.For(), count, ranked);

    private static IReadOnlyList<string> PickFor(RequestBuilder request, int count, params (Exercise Exercise, decimal Need)[] ranked)
    {
        var rules = TestEdition.Knowledge.Scoring with
        {
            NeedMatch = TestEdition.Knowledge.Scoring.NeedMatch with { MinPoints = Least },
            Spread = new SpreadRule(PatternShare: 0.5m, PurposeShare: 0.5m, AskedShare: 0.5m, Basis.CommonPractice),
        };
        var stages = Stages.Of(request.Count(count), TestEdition.Of(ranked.Select(r => r.Exercise), TestEdition.Knowledge.With(scoring: rules)));
        // Points are said by hand; what an exercise is for follows from its ratings alone.
        var needs = new NeedTable(new NeedProfile([], []), rules.NeedMatch, TestEdition.Vocabulary.Qualities.Count);
        var ranking = new Ranking([.. ranked.Select(r => stages.Catalogue.PositionOf(r.Exercise.Id))], [.. ranked.Select((_, i) => 90_000 - i)], [.. ranked.Select(r => Points.Of(r.Need).Thousandths)]);
        var ranks = RankingSelector.Pick(ranking, needs, stages.Situation);
        Assert.Equal(ranks.Order(), ranks);
        return [.. ranks.Select(r => stages.Catalogue.Exercises[ranking.Positions[r]].Id)];
    }

    /// <summary>Named exercises differ in what they are for, unless a quality is given, so that only what a test is about holds anything back.</summary>
    private static (Exercise Exercise, decimal Need) E(string id, string? family = null, string pattern = "squat", string? quality = null, decimal need = 20) =>
        (ExerciseBuilder.Named(id).OfFamily(family ?? id).OfPattern(pattern).Rated(quality ?? (pattern is "squat" && id.StartsWith('s') ? Numbered(id) : "max-strength"), 3), need);

    private static string Numbered(string id) => TestEdition.Vocabulary.Qualities[10 + (id[1] - '0')].Id;
}
