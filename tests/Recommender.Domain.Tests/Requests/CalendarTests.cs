using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Requests;

public sealed class CalendarTests
{
    [Fact]
    public void Without_dates_nothing_is_said()
    {
        var calendar = Of(r => r);
        Assert.Equal((null, 0UL), (calendar.Weeks, calendar.Protections));
        Assert.Empty(calendar.HardDays);
    }

    [Theory]
    [InlineData(35, 5.0)]
    [InlineData(10, 1.43)]
    [InlineData(0, 0.0)]
    [InlineData(-2, 0.0)]
    public void The_next_main_competition_gives_the_weeks(int daysToStart, double weeks) =>
        Assert.Equal((decimal)weeks, Of(r => r with { Competitions = [new Competition { DaysToStart = daysToStart, Days = 3 }] }).Weeks);

    [Fact]
    public void A_competition_that_is_over_does_not_count() =>
        Assert.Null(Of(r => r with { Competitions = [new Competition { DaysToStart = -3, Days = 3 }] }).Weeks);

    [Fact]
    public void The_peak_is_for_the_main_competition_not_for_the_nearest()
    {
        var calendar = Of(r => r with { Competitions = [new Competition { DaysToStart = 7, Priority = "build-up" }, new Competition { DaysToStart = 70, Priority = "main" }, new Competition { DaysToStart = 3, Priority = "training-through" }] });
        Assert.Equal(10m, calendar.Weeks);
        Assert.Equal([3, 7, 70], calendar.HardDays.Select(d => d.InDays));
    }

    [Fact]
    public void A_build_up_competition_stands_in_where_no_main_one_is_named() =>
        Assert.Equal(2m, Of(r => r with { Competitions = [new Competition { DaysToStart = 14, Priority = "build-up" }] }).Weeks);

    [Fact]
    public void Trained_through_alone_sets_no_peak() =>
        Assert.Null(Of(r => r with { Competitions = [new Competition { DaysToStart = 14, Priority = "training-through" }] }).Weeks);

    [Theory]
    [InlineData("max-velocity", null, true)]
    [InlineData("tempo", null, false)]
    [InlineData("tempo", 9.0, true)]
    [InlineData("gym", 10.0, false)]
    public void Kind_and_effort_make_a_day_hard(string kind, double? effort, bool hard) =>
        Assert.Equal(hard ? 1 : 0, Of(r => r with { Training = [new TrainingDay { Kind = kind, DaysFromToday = 1, Effort = (decimal?)effort }] }).HardDays.Count);

    [Fact]
    public void What_is_behind_is_no_hard_day_ahead() =>
        Assert.Empty(Of(r => r with { Training = [new TrainingDay { Kind = "max-velocity", DaysFromToday = -1 }] }).HardDays);

    [Fact]
    public void After_track_the_days_own_work_is_behind()
    {
        RecommendationRequest Today(RecommendationRequest r, string? slot) => r with { Setting = new SettingFacts { Slot = slot }, Training = [new TrainingDay { Kind = "max-velocity", DaysFromToday = 0 }] };
        Assert.Single(Of(r => Today(r, null)).HardDays);
        Assert.Empty(Of(r => Today(r, "after-track")).HardDays);
        Assert.Equal(["max-velocity"], Of(r => Today(r, "after-track")).Today);
    }

    private static Calendar Of(Func<RecommendationRequest, RecommendationRequest> change) => Calendar.Of(change(RequestBuilder.For()), "jumps", TestEdition.Knowledge.Week);
}
