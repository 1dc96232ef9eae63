using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Scoring.Factors;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Scoring.Factors;

public sealed class EventCorrespondenceTests
{
    private static readonly KnowledgeBase Rules = TestEdition.Knowledge
        .WithProfile("long-jump", p => p with
        {
            Correspondence = new Correspondence(
                new Dictionary<Support, decimal> { [Support.Single] = 1, [Support.Split] = 0.5m },
                new Dictionary<string, decimal> { ["horizontal"] = 1, ["vertical"] = 0.8m },
                new Dictionary<LoadingRate, decimal> { [LoadingRate.Impact] = 1 }),
        })
        .With(scoring: TestEdition.Knowledge.Scoring with { Correspondence = TestEdition.Knowledge.Scoring.Correspondence with { MaxPoints = 10, SupportShare = 0.5m, DirectionShare = 0.3m, LoadingRateShare = 0.2m } });

    [Fact]
    public void An_exercise_like_the_event_in_all_three_gets_the_maximum() =>
        Verify(Support.Single, "horizontal", LoadingRate.Impact).Gives(10, ("support", 5), ("direction", 3), ("loading-rate", 2));

    [Fact]
    public void Partial_likeness_counts_in_part() =>
        Verify(Support.Split, "vertical", LoadingRate.Impact).Gives(2.5m + 2.4m + 2, ("support", 2.5m), ("direction", 2.4m), ("loading-rate", 2));

    [Fact]
    public void What_the_profile_does_not_name_is_not_like_it_and_stays_as_a_zero_row() =>
        Verify(Support.OffFeet, "none", LoadingRate.Slow).Gives(0, ("support", 0), ("direction", 0), ("loading-rate", 0));

    [Fact]
    public void Tells_likeness_of_one()
    {
        var support = Verify(Support.Split, "none", LoadingRate.Slow).Gives(2.5m, ("support", 2.5m), ("direction", 0), ("loading-rate", 0))[0];
        Assert.Equal((0.5m, 1m), (support.Value, support.Limit));
    }

    private static FactorVerifier Verify(Support support, string direction, LoadingRate rate) =>
        FactorVerifier.Of<EventCorrespondence>().Under(Rules).Given(RequestBuilder.For("jumps").Doing("long-jump"))
            .AskedAbout(ExerciseBuilder.Named().At(rate).But(e => e with { Support = support, Direction = direction }));
}
