using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class VarietyContinuityTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge.With(scoring: TestEdition.Knowledge.Scoring with
    {
        Continuity = TestEdition.Knowledge.Scoring.Continuity with
        {
            SameExercise = [new DaysStep(0, 1, -3, "done in the last day"), new DaysStep(2, 14, 1.5m, "in the programme")],
            SameFamily = [new DaysStep(0, 1, -2, "another of its family")],
        },
    });

    [Fact]
    public void Nothing_done_brings_nothing() => Verify(RequestBuilder.For()).Gives(0);

    [Theory]
    [InlineData(0, -3)]
    [InlineData(1, -3)]
    [InlineData(2, 1.5)]
    [InlineData(14, 1.5)]
    public void The_same_exercise_brings_the_points_of_its_days(int days, decimal points) => Verify(RequestBuilder.For().Did("plain", days)).Gives(points, ("same-exercise", points));

    [Fact]
    public void Long_ago_brings_nothing() => Verify(RequestBuilder.For().Did("plain", 15)).Gives(0);

    [Fact]
    public void Another_of_the_family_brings_its_own_points() => Verify(RequestBuilder.For().Did("sister", 1)).Gives(-2, ("same-family", -2));

    [Fact]
    public void Exercise_and_family_add_up() => Verify(RequestBuilder.For().Did("plain", 4).Did("sister", 0)).Gives(-0.5m, ("same-exercise", 1.5m), ("same-family", -2));

    [Fact]
    public void The_last_time_counts() => Verify(RequestBuilder.For().Did("plain", 9).Did("plain", 1)).Gives(-3, ("same-exercise", -3));

    [Fact]
    public void Another_family_brings_nothing() => Verify(RequestBuilder.For().Did("stranger", 0)).Gives(0);

    private static FactorVerifier Verify(RequestBuilder request) =>
        FactorVerifier.Of<VarietyContinuity>().Under(Rules).Given(request).AskedAbout(ExerciseBuilder.Named("plain"), ExerciseBuilder.Named("sister").OfFamily("plain"), ExerciseBuilder.Named("stranger"));
}
