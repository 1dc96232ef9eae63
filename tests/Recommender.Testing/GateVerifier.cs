using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Xunit;

namespace Recommender.Testing;

/// <summary>One gate alone: given these facts, this refusal.</summary>
public sealed class GateVerifier
{
    private readonly Gate gate;
    private RecommendationRequest request = RequestBuilder.For();
    private KnowledgeBase knowledge = TestEdition.Knowledge;
    private List<Exercise> exercises = [ExerciseBuilder.Named()];

    private GateVerifier(Gate gate) => this.gate = gate;

    /// <summary>Verifies a gate of the filter.</summary>
    /// <exception cref="InvalidOperationException">The filter does not ask it.</exception>
    public static GateVerifier Of<T>() where T : Gate => new(EligibilityFilter.Gates.OfType<T>().Single());

    /// <summary>The request; unasked, a jumper about whom nothing is known.</summary>
    public GateVerifier Given(RecommendationRequest given)
    {
        request = given;
        return this;
    }

    /// <summary>Rules; unasked, those of the data folder.</summary>
    public GateVerifier Under(KnowledgeBase rules)
    {
        knowledge = rules;
        return this;
    }

    /// <summary>The exercise that is asked about, and others that stand beside it in the catalogue.</summary>
    public GateVerifier AskedAbout(Exercise exercise, params Exercise[] others)
    {
        exercises = [exercise, .. others];
        return this;
    }

    /// <summary>The gate lets the exercise pass, or has nothing to ask.</summary>
    public void Passes()
    {
        var (context, position) = Prepare();
        Assert.False(gate.Asks(context) && gate.Refuses(context, position), $"{gate.Reason} refuses {exercises[0].Id}.");
    }

    /// <summary>The gate has nothing to ask in this situation.</summary>
    public void HasNothingToAsk() => Assert.False(gate.Asks(Prepare().Context), $"{gate.Reason} asks.");

    /// <summary>The gate refuses the exercise and says so.</summary>
    /// <param name="limit">What would have passed.</param>
    /// <param name="value">What was found.</param>
    /// <param name="wouldBeAllowedIf">Part of what would let it in.</param>
    public void Refuses(object? limit, object? value, string wouldBeAllowedIf)
    {
        var (context, position) = Prepare();
        Assert.True(gate.Asks(context) && gate.Refuses(context, position), $"{gate.Reason} lets {exercises[0].Id} pass.");
        var refusal = gate.Explain(context, position);
        Assert.Equal(gate.Reason, refusal.Reason);
        Assert.Equal(limit, refusal.Limit);
        Assert.Equal(value, refusal.Value);
        Assert.Contains(wouldBeAllowedIf, refusal.WouldBeAllowedIf, StringComparison.Ordinal);
    }

    private (GateContext Context, int Position) Prepare()
    {
        var stages = Stages.Of(request, TestEdition.Of(exercises, knowledge));
        return (stages.GateContext, stages.Catalogue.PositionOf(exercises[0].Id));
    }
}
