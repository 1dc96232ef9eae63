using CsCheck;
using Recommender.Domain.Audit;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Audit;

public sealed class ComparisonTests(ITestOutputHelper output)
{
    private static Gen<string> Ids => RequestGenerator.One(TestEdition.Current.Catalogue.Exercises.Select(e => e.Id));

    /// <summary>Brute force over all subsets: none smaller decides, and the one that is told does.</summary>
    [Fact]
    public void The_deciding_factors_are_the_fewest_of_all_subsets() =>
        Gen.Int[-40, 40].Array[1, 9].Sample(inFavour =>
        {
            var told = DecidingFactors.Of(inFavour);

            var smallest = Enumerable.Range(1, (1 << inFavour.Length) - 1).Where(Decides).Select(int.PopCount).DefaultIfEmpty(0).Min();
            Assert.Equal(smallest, told.Count);
            Assert.True(told.Count == 0 || Decides(told.Sum(i => 1 << i)));

            bool Decides(int subset)
            {
                var own = inFavour.Where((_, i) => (subset & (1 << i)) != 0).Sum();
                var against = inFavour.Where((d, i) => (subset & (1 << i)) == 0 && d < 0).Sum(d => -d);
                return own > against;
            }
        }, iter: 3_000);

    [Fact]
    public void Picks_have_the_points_of_the_answer_and_the_order_of_the_answer() =>
        RequestGenerator.Requests.Sample(request =>
        {
            var picks = Stages.Answer(request).Picks;
            for (var i = 1; i < picks.Count; i++)
            {
                var told = Comparisons.Of(new RecommendationAsked(request), TestEdition.Current, picks[i].Exercise.Id, picks[0].Exercise.Id);

                Assert.Equal(picks[0].Exercise.Id, told.Above);
                Assert.Equal(picks[i].Score - picks[0].Score, told.Difference);
                Assert.Equal(picks[i].Contributions.Select(c => (c.Factor, c.Points)), told.Factors.Select(f => (f.Factor, f.First)));
                Assert.Equal(picks[0].Contributions.Select(c => c.Points), told.Factors.Select(f => f.Second));
                Assert.Equal((i + 1, 1), (told.Standings.First.Rank, told.Standings.Second.Rank));
                AddsUp(told);
            }
        }, iter: 60, threads: 1);

    [Fact]
    public void What_was_left_out_is_compared_by_the_points_it_would_have_had_with_its_refusals()
    {
        var (open, closed) = (0, 0);
        Sampling.Until(() => open > 50 && closed > 50, () => Gen.Select(RequestGenerator.Requests, Ids, Ids).Where((_, a, b) => a != b).Sample((request, a, b) =>
        {
            var stages = Stages.Of(request);
            var told = Comparisons.Of(new RecommendationAsked(request), TestEdition.Current, a, b);
            var other = Comparisons.Of(new RecommendationAsked(request), TestEdition.Current, b, a);

            AddsUp(told);
            Assert.Equal(told.Sentence, other.Sentence);
            Assert.Equal(told.Above, other.Above);
            Assert.Equal(told.Difference.Thousandths, -other.Difference.Thousandths);
            foreach (var (id, standing) in new[] { (a, told.Standings.First), (b, told.Standings.Second) })
            {
                // Without any gate in the way: the score stands alone, whatever refuses the exercise.
                Assert.Equal(new ScoringEngine(stages.Scoring).Score(stages.Catalogue.PositionOf(id), out _), standing.Score.Thousandths);
                var eligible = stages.EligibleIds().Contains(id);
                Assert.Equal(eligible, standing.Place is StandingPlace.Picked or StandingPlace.Eligible);
                Assert.True(eligible || standing.Place == StandingPlace.Referred || standing.Refusals.Count > 0);
                Assert.Equal(standing.Place == StandingPlace.Eligible, standing.NotPickedBecause is not null);
                (open, closed) = eligible ? (open + 1, closed) : (open, closed + 1);
            }
        }, iter: 200, threads: 1));
        output.WriteLine($"{open} eligible, {closed} left out.");
        Assert.True(open > 50 && closed > 50);
    }

    [Fact]
    public void In_a_substitution_likeness_decides()
    {
        var decided = 0;
        Sampling.Until(() => decided > 20, () => Gen.Select(RequestGenerator.Requests, Ids).Sample((request, replaced) =>
        {
            var asked = new SubstitutionRequest { Exercise = replaced, Context = request with { Count = null } };
            var picks = SubstitutionPipeline.Answer(asked, TestEdition.Current, "").Picks;
            for (var i = 1; i < picks.Count; i++)
            {
                var told = Comparisons.Of(new SubstitutionAsked(asked), TestEdition.Current, picks[0].Exercise.Id, picks[i].Exercise.Id);

                Assert.Equal(picks[0].Exercise.Id, told.Above);
                Assert.Equal((picks[0].Similarity, picks[i].Similarity), (told.Standings.First.Similarity, told.Standings.Second.Similarity));
                Assert.Equal(picks[0].Similarity != picks[i].Similarity, told.DecidedBy == DecidedBy.Similarity);
                decided++;
            }
        }, iter: 40, threads: 1));
        Assert.True(decided > 20);
    }

    [Fact]
    public void In_a_session_each_has_its_own_points()
    {
        RecommendationRequest context = RequestBuilder.Skilled();
        var asked = new SessionRequest { Context = context };
        var picks = SessionPipeline.Answer(asked, TestEdition.Current, "").Picks;

        var told = Comparisons.Of(new SessionAsked(asked), TestEdition.Current, picks[0].Exercise.Id, picks[1].Exercise.Id);

        Assert.Equal(picks[0].Score - picks[1].Score, told.Difference);
        Assert.Equal((1, 2), (told.Standings.First.Rank, told.Standings.Second.Rank));
        output.WriteLine(told.Sentence);
    }

    /// <summary>The extra set makes doing one more pair in turn worth it, and pairs stand together: ranks are those of the session as it was given.</summary>
    [Fact]
    public void In_a_session_with_an_extra_set_for_a_weaker_side_each_stands_where_the_session_has_it()
    {
        var tests = new TestResults { SingleHopCm = new(105, 130), SingleLegJumpCm = new(21, 26), Trials = 3 };
        var asked = new SessionRequest { Context = RequestBuilder.Skilled("distance", "pre-competition").InMinutes(90).Wanting("eccentric-strength").Tested(tests), Slots = new SlotRange { Max = 9 } };
        var picks = SessionPipeline.Answer(asked, TestEdition.Current, "").Picks;
        Assert.Contains(picks, p => p.Dose!.Adjustments.Any(a => a.Code == "extra-set"));

        for (var i = 1; i < picks.Count; i++)
        {
            var told = Comparisons.Of(new SessionAsked(asked), TestEdition.Current, picks[0].Exercise.Id, picks[i].Exercise.Id);
            Assert.Equal((1, i + 1), (told.Standings.First.Rank, told.Standings.Second.Rank));
        }
    }

    [Theory]
    [InlineData("patellar-tendon", 4, "back-squat", "depth-jump")]
    [InlineData("patellar-tendon", 2, "front-squat", "back-squat")]
    [InlineData("hamstring", 3, "nordic-hamstring-lower", "romanian-deadlift")]
    public void Sentences_read_as_sentences(string region, int pain, string first, string second)
    {
        var told = Comparisons.Of(new RecommendationAsked(RequestBuilder.Skilled().Sore(region, pain)), TestEdition.Current, first, second);

        output.WriteLine(told.Sentence);
        Assert.EndsWith(".", told.Sentence);
        Assert.Contains(TestEdition.Exercise(first).Name, told.Sentence);
        Assert.Contains(TestEdition.Exercise(second).Name, told.Sentence);
    }

    private static void AddsUp(ComparisonAnswer told)
    {
        Assert.Equal(told.Difference.Thousandths, told.Factors.Sum(f => f.Difference.Thousandths));
        Assert.All(told.Factors, f => Assert.Equal(f.First - f.Second, f.Difference));
        Assert.Equal(told.Standings.First.Score - told.Standings.Second.Score, told.Difference);
        Assert.True(told.DecidedBy == DecidedBy.Points || told.Deciding.Count == 0);
        Assert.True(told.DecidedBy != DecidedBy.Points || told.Deciding.Count > 0);
    }
}
