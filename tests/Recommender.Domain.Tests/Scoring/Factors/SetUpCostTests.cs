using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class SetUpCostTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge.With(scoring: TestEdition.Knowledge.Scoring with { SetUp = TestEdition.Knowledge.Scoring.SetUp with { PointsPerMinute = 0.4m, MaxPoints = 3 } });

    [Theory]
    [InlineData(0, 0)]
    [InlineData(2.5, -1)]
    [InlineData(7.5, -3)]
    [InlineData(20, -3)]
    public void Minutes_cost_up_to_a_maximum(decimal minutes, decimal points) =>
        FactorVerifier.Of<SetUpCost>().Under(Rules).AskedAbout(ExerciseBuilder.Named().But(e => e with { SetUpMinutes = minutes })).Gives(points, ("set-up", points));
}
