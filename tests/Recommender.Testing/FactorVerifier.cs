using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;
using Xunit;

namespace Recommender.Testing;

/// <summary>One factor alone: given these facts, these points. Always scored twice, with and without details, since both must agree.</summary>
public sealed class FactorVerifier
{
    private readonly Factor factor;
    private RecommendationRequest request = RequestBuilder.For();
    private KnowledgeBase knowledge = TestEdition.Knowledge;
    private List<Exercise> exercises = [ExerciseBuilder.Named()];

    private FactorVerifier(Factor factor) => this.factor = factor;

    /// <summary>Verifies a factor of the engine.</summary>
    /// <exception cref="InvalidOperationException">The engine does not score it.</exception>
    public static FactorVerifier Of<T>() where T : Factor => new(ScoringEngine.Factors.OfType<T>().Single());

    /// <summary>The request; unasked, a jumper about whom nothing is known.</summary>
    public FactorVerifier Given(RecommendationRequest given)
    {
        request = given;
        return this;
    }

    /// <summary>Rules; unasked, those of the data folder.</summary>
    public FactorVerifier Under(KnowledgeBase rules)
    {
        knowledge = rules;
        return this;
    }

    /// <summary>The exercise that is scored, and others that stand beside it in the catalogue.</summary>
    public FactorVerifier AskedAbout(Exercise exercise, params Exercise[] others)
    {
        exercises = [exercise, .. others];
        return this;
    }

    /// <summary>The points, as a coach would write them, and their parts in order.</summary>
    /// <returns>The details.</returns>
    public IReadOnlyList<Detail> Gives(decimal points, params (string Code, decimal Points)[] parts)
    {
        var details = Score(out var total);
        Assert.Equal(points, total.Value);
        Assert.Equal(parts, details.Select(d => (d.Code, d.Points.Value)));
        return details;
    }

    /// <summary>The points alone.</summary>
    public decimal Points()
    {
        Score(out var total);
        return total.Value;
    }

    private List<Detail> Score(out Points total)
    {
        var stages = Stages.Of(request, TestEdition.Of(exercises, knowledge));
        var scorer = factor.Prepare(stages.Scoring);
        var position = stages.Catalogue.PositionOf(exercises[0].Id);
        var plain = new PointSink(null);
        scorer.Score(position, ref plain);
        var details = new List<Detail>();
        var recorded = new PointSink(details);
        scorer.Score(position, ref recorded);
        Assert.Equal(plain.Total, recorded.Total);
        Assert.Equal(plain.Total, details.Sum(d => d.Points.Thousandths));
        total = new Points(plain.Total);
        return details;
    }
}
