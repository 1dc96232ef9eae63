using CsCheck;
using Recommender.Domain.Ledger;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Ledger;

/// <summary>These seven days beside the weeks before, worked by hand.</summary>
public sealed class UsualWeekTests
{
    private const string Squat = "goblet-squat";

    /// <summary>Eight days ago 3 x 8, fifteen days ago 5 x 8: on average 4 x 8 a week. Three days ago 6 x 8: one and a half times that.</summary>
    [Fact]
    public void The_usual_week_is_the_mean_of_the_weeks_with_work()
    {
        var usual = Of([Done(3, 6), Done(8, 3), Done(15, 5)], [])!;
        var load = TestEdition.Exercise(Squat).TissueLoad["quadriceps"].Value;
        Assert.Equal(2, usual.Weeks);
        Assert.Equal(new SideTotal(32 * load, 32 * load), usual.Totals["quadriceps"]);
        Assert.Equal(new SideShare(1.5m, 1.5m), usual.Share["quadriceps"]);
        Assert.Contains("never of what a tissue can stand", usual.Note, StringComparison.Ordinal);
    }

    /// <summary>Weeks run from today: 6 days ago is this week, 7 the one before, 27 the last that counts, 28 none.</summary>
    [Theory]
    [InlineData(6, 0)]
    [InlineData(7, 1)]
    [InlineData(27, 1)]
    [InlineData(28, 0)]
    public void A_week_has_seven_days_and_three_weeks_count(int daysAgo, int weeks) => Assert.Equal(weeks, Of([Done(daysAgo, 3)], [])?.Weeks ?? 0);

    [Fact]
    public void Training_without_any_in_the_week_before_tells_no_share()
    {
        TrainingDay now = new() { Kind = "acceleration", DaysFromToday = -2, Minutes = 60 };
        Assert.Null(Of([Done(8, 3)], [now]));
        var usual = Of([Done(8, 3)], [now, now with { DaysFromToday = -9, Minutes = 30 }])!;
        Assert.InRange(usual.Share["achilles-calf"].Left!.Value, 1.9m, 2m); // the squat adds a little to the week before
        Assert.NotNull(Of([Done(8, 3)], [now with { DaysFromToday = 1 }])); // what is to come is no week that was
    }

    /// <summary>A week done again is the usual one, whatever was done in it.</summary>
    [Fact]
    public void The_same_week_again_is_as_usual() =>
        Gen.Select(RequestGenerator.One(TestEdition.Current.Catalogue.Exercises), Gen.Int[0, 6], Gen.Int[1, 8], Gen.Int[1, 30]).Array[1, 6].Sample(
            work =>
            {
                IEnumerable<RecentWork> In(int week) => work.Select(w => new RecentWork { Exercise = w.Item1.Id, DaysAgo = w.Item2 + (7 * week), Sets = w.Item3, Amount = w.Item4 });
                var usual = Of([.. In(0), .. In(1)], [])!;
                Assert.NotEmpty(usual.Share);
                Assert.All(usual.Share.Values, share => Assert.True(share is { Left: null or 1, Right: null or 1 }));
            },
            iter: 200);

    [Fact]
    public void Rules_from_before_it_tell_none()
    {
        var edition = TestEdition.Under(TestEdition.Knowledge.With(ledger: TestEdition.Knowledge.Ledger with { UsualWeek = null }));
        Assert.Null(UsualWeek.Of(Situation.Of(Request([Done(8, 3)], []), edition), new LedgerSheet(edition.Catalogue.RegionCount)));
    }

    private static RecentWork Done(int daysAgo, int sets) => new() { Exercise = Squat, DaysAgo = daysAgo, Sets = sets, Amount = 8, Unit = "reps" };

    private static RecommendationRequest Request(RecentWork[] recent, TrainingDay[] training) => RequestBuilder.Skilled().Request with { Recent = recent, Training = training };

    private static UsualWeek? Of(RecentWork[] recent, TrainingDay[] training)
    {
        var situation = Situation.Of(Request(recent, training), TestEdition.Current);
        var now = WeekLedger.Work(situation);
        now.Add(WeekLedger.Training(situation));
        return UsualWeek.Of(situation, now);
    }
}
