using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class CompetitionFreshnessTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge.With(scoring: TestEdition.Knowledge.Scoring with
    {
        Freshness = TestEdition.Knowledge.Scoring.Freshness with { MaxPoints = 10, BySorenessRisk = [0, 0.2m, 0.6m, 1], FadesOverWeeks = 6 },
    });

    [Theory]
    [InlineData(3, 0, -10)]
    [InlineData(3, 3, -5)]
    [InlineData(2, 3, -3)]
    [InlineData(1, 3, -1)]
    [InlineData(0, 0, 0)]
    [InlineData(3, 6, 0)]
    [InlineData(3, 40, 0)]
    public void Soreness_costs_more_the_nearer_the_competition(int risk, decimal weeks, decimal points) =>
        FactorVerifier.Of<CompetitionFreshness>().Under(Rules).Given(RequestBuilder.For().WeeksOut(weeks)).AskedAbout(ExerciseBuilder.Named().But(e => e with { SorenessRisk = risk }))
            .Gives(points, ("soreness", points));
}
