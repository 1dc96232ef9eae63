using Recommender.Domain.Catalogue;
using Recommender.Domain.Dosing;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Dosing;

public sealed class OneRepMaxTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge.With(dose: TestEdition.Knowledge.Dose with
    {
        LoadRatios = [new LoadRatio("front-squat", "back-squat", 0.8m, Basis.CommonPractice), new LoadRatio("front-squat", "power-clean", 1.2m, Basis.CommonPractice)],
    });

    [Fact]
    public void Is_null_when_nothing_is_known() => Assert.Null(Of(RequestBuilder.For()));

    [Fact]
    public void Is_null_when_no_related_lift_is_known() => Assert.Null(Of(RequestBuilder.For().Lifting("bench-press", 100)));

    [Fact]
    public void Its_own_maximum_comes_first() => Assert.Equal(70m, Of(RequestBuilder.For().Lifting("back-squat", 200).Lifting("front-squat", 70)));

    [Fact]
    public void Is_reckoned_from_a_related_lift() => Assert.Equal(80m, Of(RequestBuilder.For().Lifting("back-squat", 100)));

    [Fact]
    public void The_smallest_of_several_reckonings_holds() => Assert.Equal(60m, Of(RequestBuilder.For().Lifting("back-squat", 100).Lifting("power-clean", 50)));

    /// <summary>Lowest of the published equations, for 100 kg five times: Brzycki and O'Conner give 112.5 kg (evidence of their own printed forms).</summary>
    [Fact]
    public void Is_estimated_from_repetitions_to_failure() =>
        Assert.Equal(112.5m, Of(RequestBuilder.For().Tested(new TestResults { RepetitionsToFailure = new Dictionary<string, LiftToFailure> { ["front-squat"] = new() { LoadKg = 100, Repetitions = 5 } } })));

    [Fact]
    public void An_estimate_serves_a_related_lift_too() =>
        Assert.Equal(90m, Of(RequestBuilder.For().Tested(new TestResults { RepetitionsToFailure = new Dictionary<string, LiftToFailure> { ["back-squat"] = new() { LoadKg = 100, Repetitions = 5 } } })));

    private static decimal? Of(RequestBuilder request) => OneRepMax.Of(Stages.Of(request, TestEdition.Under(Rules)).Situation, "front-squat");
}
