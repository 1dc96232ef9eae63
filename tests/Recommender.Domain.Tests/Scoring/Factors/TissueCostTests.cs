using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class TissueCostTests
{
    // 20 points at load 10 and pain 10, a share of 0.3 at pain 0; 10 points at load 10 on a region at risk; slow work counts half, landings 1.5 times.
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge
        .WithProfile("long-jump", p => p with { RegionsAtRisk = [new RegionAtRisk("hamstring", 0.5m, Basis.CommonPractice)] })
        .With(scoring: TestEdition.Knowledge.Scoring with
        {
            TissueCost = TestEdition.Knowledge.Scoring.TissueCost with
            {
                SorePoints = 20,
                SorePainFloor = 0.3m,
                RiskPoints = 10,
                RateFactor = new Dictionary<LoadingRate, decimal> { [LoadingRate.Isometric] = 0.25m, [LoadingRate.Slow] = 0.5m, [LoadingRate.Fast] = 1, [LoadingRate.Impact] = 1.5m },
            },
        });

    private static RequestBuilder LongJumper => RequestBuilder.For("jumps").Doing("long-jump");

    [Fact]
    public void A_region_that_the_event_wears_costs_by_its_weight_load_and_speed()
    {
        Verify(LongJumper, LoadingRate.Slow).Gives(-1, ("at-risk:hamstring", -1));
        Verify(LongJumper, LoadingRate.Fast).Gives(-2, ("at-risk:hamstring", -2));
        Verify(LongJumper, LoadingRate.Impact).Gives(-3, ("at-risk:hamstring", -3));
        Verify(LongJumper, LoadingRate.Isometric).Gives(-0.5m, ("at-risk:hamstring", -0.5m));
    }

    [Theory]
    [InlineData(0, -1.2)]
    [InlineData(5, -2.6)]
    [InlineData(10, -4)]
    public void A_sore_region_costs_more_the_more_it_hurts(int pain, decimal points) =>
        Verify(LongJumper.Sore("hamstring", pain), LoadingRate.Slow).Gives(points, ("sore:hamstring", points));

    [Fact]
    public void A_worse_morning_counts_as_more_pain()
    {
        var pain = Rules.Pain.WorseMorning.AddsPain + 2;
        var points = -20 * (0.3m + (0.7m * pain / 10)) * 0.5m * 0.4m;
        Verify(LongJumper.Sore("hamstring", 2, nextMorning: "worse"), LoadingRate.Slow).Gives(points, ("sore:hamstring", points));
    }

    [Fact]
    public void A_knee_costs_as_tendon_and_as_joint() =>
        FactorVerifier.Of<TissueCost>().Under(Rules).Given(LongJumper.Sore("knee", 5)).AskedAbout(ExerciseBuilder.Named().Loads("patellar-tendon", 2).Loads("patellofemoral", 4))
            .Gives(-3.9m, ("sore:patellar-tendon", -1.3m), ("sore:patellofemoral", -2.6m), ("at-risk:hamstring", 0));

    [Fact]
    public void What_does_not_load_the_region_costs_nothing_and_says_so()
    {
        var detail = Assert.Single(FactorVerifier.Of<TissueCost>().Under(Rules).Given(LongJumper).AskedAbout(ExerciseBuilder.Named()).Gives(0, ("at-risk:hamstring", 0)));
        Assert.Equal((0m, 10m), (detail.Value, detail.Limit));
    }

    [Fact]
    public void The_cost_is_reckoned_on_the_value_not_on_its_upper_end() =>
        FactorVerifier.Of<TissueCost>().Under(Rules).Given(LongJumper).AskedAbout(ExerciseBuilder.Named().Loads("hamstring", 4, high: 9)).Gives(-1, ("at-risk:hamstring", -1));

    [Fact]
    public void Rests_on_the_weaker_of_load_and_rule()
    {
        var measured = FactorVerifier.Of<TissueCost>().Under(Rules).Given(LongJumper).AskedAbout(ExerciseBuilder.Named().Loads("hamstring", 4, basis: Basis.Published, source: "scattone-silva-2024"));
        Assert.Equal(Basis.CommonPractice, Assert.Single(measured.Gives(-1, ("at-risk:hamstring", -1))).Basis);
        var recalled = FactorVerifier.Of<TissueCost>().Under(Rules).Given(LongJumper).AskedAbout(ExerciseBuilder.Named().Loads("hamstring", 4, basis: Basis.Recalled));
        Assert.Equal(Basis.Recalled, Assert.Single(recalled.Gives(-1, ("at-risk:hamstring", -1))).Basis);
    }

    private static FactorVerifier Verify(RequestBuilder request, LoadingRate rate) =>
        FactorVerifier.Of<TissueCost>().Under(Rules).Given(request).AskedAbout(ExerciseBuilder.Named().At(rate).Loads("hamstring", 4));
}
