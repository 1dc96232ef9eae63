using Recommender.Domain.Scoring;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring;

public sealed class ScoringEngineTests
{
    [Fact]
    public void Factors_are_those_of_the_vocabulary_in_its_order() => Assert.Equal(TestEdition.Vocabulary.Factors.Select(f => f.Id), ScoringEngine.Factors.Select(f => f.Id));

    [Fact]
    public void Ranks_by_score_and_equal_scores_by_id()
    {
        var edition = TestEdition.Of([ExerciseBuilder.Named("b"), ExerciseBuilder.Named("a"), ExerciseBuilder.Named("worse").But(e => e with { SetUpMinutes = 5 }), ExerciseBuilder.Named("z")]);
        var ranking = Stages.Of(RequestBuilder.For(), edition).Ranking();
        Assert.Equal(["a", "b", "z", "worse"], ranking.Positions.Select(p => edition.Catalogue.Exercises[p].Id));
        Assert.Equal(ranking.Scores.OrderDescending(), ranking.Scores);
        Assert.True(ranking.Scores[2] > ranking.Scores[3]);
    }

    [Fact]
    public void Ranks_scores_below_zero_too()
    {
        var edition = TestEdition.Of([
            ExerciseBuilder.Named("low").Rated("grip", 1).At(Domain.Catalogue.LoadingRate.Impact).Loads("hamstring", 10).But(e => e with { SorenessRisk = 3 }),
            ExerciseBuilder.Named("high").Rated("grip", 1)]);
        var ranking = Stages.Of(RequestBuilder.For("sprints", "transition").WeeksOut(0.5m).Did("high", 5), TestEdition.Of(edition.Catalogue.Exercises, TestEdition.Knowledge.With(
            peaking: new Domain.Knowledge.PeakingRules([], [])))).Ranking();
        Assert.True(ranking.Scores[1] < 0);
        Assert.Equal(["high", "low"], ranking.Positions.Select(p => edition.Catalogue.Exercises[p].Id));
    }

    [Fact]
    public void Explains_the_very_score_it_gave()
    {
        var stages = Stages.Of(RequestBuilder.Skilled().Sore("hamstring", 2).Did("back-squat", 3));
        var engine = new ScoringEngine(stages.Scoring);
        for (var e = 0; e < stages.Catalogue.Count; e++)
        {
            var score = engine.Score(e, out var need);
            var contributions = engine.Explain(e);
            Assert.Equal(score, contributions.Sum(c => c.Points.Thousandths));
            Assert.Equal(need, contributions[0].Points.Thousandths);
        }
    }
}
