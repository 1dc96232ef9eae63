using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class PhaseFitTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge.With(scoring: TestEdition.Knowledge.Scoring with
    {
        PhaseFit = TestEdition.Knowledge.Scoring.PhaseFit with
        {
            LoadingRate = Enum.GetValues<LoadingRate>().ToDictionary(r => r, r => (IReadOnlyList<decimal>)(r == LoadingRate.Slow ? [2, 1, 0, 0, -0.5m, 1.5m] : [0, 0, 0, 0, 0, 0])),
            LoadBand = Enum.GetValues<LoadBand>().ToDictionary(b => b, b => (IReadOnlyList<decimal>)(b == LoadBand.Heavy ? [1, 1, 0.5m, 0, -0.25m, -2] : [0, 0, 0, 0, 0, 0])),
        },
    });

    [Theory]
    [InlineData("general-preparation", 2, 1)]
    [InlineData("specific-preparation", 1, 1)]
    [InlineData("pre-competition", 0, 0.5)]
    [InlineData("competition", 0, 0)]
    [InlineData("taper", -0.5, -0.25)]
    [InlineData("transition", 1.5, -2)]
    public void Heavy_slow_work_gets_the_points_of_the_phase(string phase, decimal rate, decimal band) =>
        FactorVerifier.Of<PhaseFit>().Under(Rules).Given(RequestBuilder.For(phase: phase)).AskedAbout(ExerciseBuilder.Named().At(LoadBand.Heavy)).Gives(rate + band, ("loading-rate", rate), ("load-band", band));

    [Fact]
    public void Other_work_gets_its_own_points() =>
        FactorVerifier.Of<PhaseFit>().Under(Rules).Given(RequestBuilder.For(phase: "general-preparation")).AskedAbout(ExerciseBuilder.Named().At(LoadingRate.Fast).At(LoadBand.Light))
            .Gives(0, ("loading-rate", 0), ("load-band", 0));
}
