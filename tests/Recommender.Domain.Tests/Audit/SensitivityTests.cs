using CsCheck;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Audit;

/// <summary>Outside check: <see cref="NaiveSample"/> writes every drawn number into a catalogue and rules of its own and asks the engine itself.</summary>
public sealed class SensitivityTests(ITestOutputHelper output)
{
    /// <summary>Requests whose first pick has the most points: no asks, and no added weights whose origin is a text made of several rules or of a stage.</summary>
    private static Gen<RecommendationRequest> Plain => RequestGenerator.Requests.Select(r => r with
    {
        Needs = null,
        Tests = null,
        Complaints = [.. r.Complaints!.Take(2).Select(c => new Complaint { Region = c.Region, Pain = c.Pain, Side = c.Side })],
        Athlete = r.Athlete! with { OneRepMaxKg = null, History = null, Restrictions = null },
        Recent = null,
        Exclude = null,
    });

    [Fact]
    public void The_share_is_what_the_whole_pipeline_gives_on_every_drawn_edition()
    {
        var asked = 0;
        Sampling.Until(() => asked > 3, () => Gen.Select(Plain, Gen.Int[0, 10_000].Array[10, 25]).Sample((request, positions) =>
        {
            var small = NaiveChanges.Small(positions);
            var edition = TestEdition.Of(small.Catalogue.Exercises, TestEdition.Knowledge.With(audit: TestEdition.Knowledge.Audit with { Sensitivity = TestEdition.Knowledge.Audit.Sensitivity with { Samples = 25, Rivals = 30 } }));
            var told = Sensitivity.Of(new RecommendationAsked(request), edition);
            var first = First(request, edition);
            Assert.Equal(first, told.First);
            if (first is null)
            {
                return;
            }

            var tops = Enumerable.Range(0, 25).Select(sample => Best(request, NaiveSample.Of(edition, request, sample), Stages.Of(request, edition).EligibleIds())).ToList();
            Assert.Equal(tops.Count(t => t == first) / 25m, told.FirstPlaceShare);
            Assert.Equal(tops.Where(t => t is not null && t != first).GroupBy(t => t!).ToDictionary(g => g.Key, g => g.Count() / 25m), told.Rivals.ToDictionary(r => r.Exercise, r => r.Share));
            asked++;
        }, iter: 8, threads: 1));
        output.WriteLine($"{asked} requests with 25 editions each.");
        Assert.True(asked > 3);
    }

    [Fact]
    public void Where_no_number_moves_first_stays_first()
    {
        var edition = NaiveChanges.Small(Enumerable.Range(0, 30).Select(i => i * 13));
        var fixedOnes = TestEdition.Of(edition.Catalogue.Exercises.Select(e => e with { TissueLoad = e.TissueLoad.ToDictionary(l => l.Key, l => l.Value with { Low = l.Value.Value, High = l.Value.Value }) }), TestEdition.Knowledge.With(audit: TestEdition.Knowledge.Audit with
        {
            Sensitivity = TestEdition.Knowledge.Audit.Sensitivity with { WithoutInterval = 0.000000001m, ImportanceStep = 0.000000001m, RatingMoves = 0, Samples = 100 },
        }));

        var told = Sensitivity.Of(new RecommendationAsked(RequestBuilder.Skilled()), fixedOnes);

        Assert.Equal(1, told.FirstPlaceShare);
        Assert.Empty(told.Rivals);
    }

    [Fact]
    public void It_is_the_same_each_time_and_its_shares_never_pass_one() =>
        Gen.Select(RequestGenerator.Requests, Gen.Int[0, 2], RequestGenerator.One(TestEdition.Current.Catalogue.Exercises)).Sample((request, kind, replaced) =>
        {
            Question question = kind switch
            {
                0 => new RecommendationAsked(request),
                1 => new SubstitutionAsked(new SubstitutionRequest { Exercise = replaced.Id, Context = request with { Count = null } }),
                _ => new SessionAsked(new SessionRequest { Context = request }),
            };
            var (one, other) = (Sensitivity.Of(question, TestEdition.Current), Sensitivity.Of(question, TestEdition.Current));

            Assert.Equal(one.FirstPlaceShare, other.FirstPlaceShare);
            Assert.Equal(one.Rivals, other.Rivals);
            Assert.Equal(one.Moves, other.Moves);
            Assert.Equal(one.First, question.Picks(TestEdition.Current) is [var top, ..] ? top : null);
            Assert.Equal(one.First is null, one.FirstPlaceShare is null);
            Assert.True(one.TopThreeShare is null || one.TopThreeShare >= one.FirstPlaceShare);
            Assert.InRange((one.FirstPlaceShare ?? 0) + one.Rivals.Sum(r => r.Share), 0, 1);
            Assert.DoesNotContain(one.Rivals, r => r.Exercise == one.First);
            Assert.All(one.Moves, m => Assert.NotEqual(Basis.Published, m.Basis));
        }, iter: 8, threads: 1);

    [Fact]
    public void Places_in_an_interval_are_drawn_evenly_and_ratings_in_the_share_that_is_said()
    {
        var places = new int[11];
        var steps = new int[3];
        const int draws = 200_000;
        for (var sample = 0; sample < draws; sample++)
        {
            var drawn = Draws.Sample(7, sample);
            places[drawn.PlaceOf(Draws.KeyOf("a")) * 11 / (Draws.Places + 1)]++;
            steps[1 + drawn.StepOf(Draws.KeyOf("b"), (uint)(0.125 * uint.MaxValue))]++;
        }

        // Four standard errors of a binomial share.
        Assert.All(places, n => Assert.InRange(n / (double)draws, (1 / 11.0) - 0.0026, (1 / 11.0) + 0.0026));
        Assert.InRange(steps[0] / (double)draws, 0.122, 0.128);
        Assert.InRange(steps[2] / (double)draws, 0.122, 0.128);
    }

    [Fact]
    public void Two_numbers_are_drawn_independently()
    {
        var (one, other) = (Draws.KeyOf("rules/scoring/needMatch/maxPoints"), Draws.KeyOf("rules/scoring/needMatch/minPoints"));
        var pairs = Enumerable.Range(0, 20_000).Select(s => Draws.Sample(3, s)).Select(d => (A: d.PlaceOf(one) - 500.0, B: d.PlaceOf(other) - 500.0)).ToList();

        var correlation = pairs.Sum(p => p.A * p.B) / Math.Sqrt(pairs.Sum(p => p.A * p.A) * pairs.Sum(p => p.B * p.B));

        // Four standard errors of a correlation of 0.
        Assert.InRange(correlation, -0.0284, 0.0284);
    }

    /// <summary>The best by the engine's own scores among what the gates let through on the edition as it stands; a drawn rating or time would move some gates, and what is eligible is not drawn.</summary>
    private static string? Best(RecommendationRequest request, Recommender.Domain.Knowledge.Edition drawn, IReadOnlySet<string> eligible)
    {
        var ranking = new ScoringEngine(Stages.Of(request, drawn).Scoring).Rank([.. eligible.Select(drawn.Catalogue.PositionOf).Order()]);
        var least = Points.Of(drawn.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        return Enumerable.Range(0, ranking.Count).Where(rank => ranking.NeedPoints[rank] >= least).Select(rank => drawn.Catalogue.Exercises[ranking.Positions[rank]].Id).FirstOrDefault();
    }

    private static string? First(RecommendationRequest request, Recommender.Domain.Knowledge.Edition edition) => RecommendationPipeline.Answer(request, edition, "").Picks is [var first, ..] ? first.Exercise.Id : null;

    /// <summary>Prints what a coach would read.</summary>
    [Fact]
    public void Sentences_read_as_sentences()
    {
        foreach (var group in TestEdition.Vocabulary.EventGroups)
        {
            var told = Sensitivity.Of(new RecommendationAsked(RequestBuilder.Skilled(group.Id).Sore("patellar-tendon", 3)), TestEdition.Current);
            output.WriteLine($"{told.Sentence} varied {told.Varied}");
            output.WriteLine("  " + string.Join("\n  ", told.Moves.Select(m => $"{m.Number} {m.Low:0.###}..{m.High:0.###}: {m.AheadAtLow} ({m.FirstAtLow}) .. {m.AheadAtHigh} ({m.FirstAtHigh})")));
            Assert.Equal(told.Sentence.Contains('%', StringComparison.Ordinal), told.First is not null);
        }

        var session = Sensitivity.Of(new SessionAsked(new SessionRequest { Context = RequestBuilder.Skilled() }), TestEdition.Current);
        output.WriteLine(session.Sentence);
        var swap = Sensitivity.Of(new SubstitutionAsked(new SubstitutionRequest { Exercise = "back-squat", Context = RequestBuilder.Skilled() }), TestEdition.Current);
        output.WriteLine(swap.Sentence);
    }
}
