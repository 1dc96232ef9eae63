using Recommender.Domain.Ledger;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Ledger;

/// <summary>Foster 1998 (monotony, strain) and Foster et al. 2001 (effort x minutes), on the worked week computed from their formulas: 450, 240, 630, 135, 450, 480, 0.</summary>
public sealed class RatedWeekTests
{
    private static readonly (decimal Effort, decimal Minutes)[] Week = [(6, 75), (4, 60), (7, 90), (3, 45), (6, 75), (8, 60)];

    private static List<SessionRating> Ratings => [.. Week.Select((d, i) => new SessionRating { DaysAgo = 6 - i, Effort = d.Effort, Minutes = d.Minutes })];

    [Fact]
    public void The_worked_week_comes_out_with_the_sample_deviation()
    {
        var week = RatedWeek.Of(Ratings, TestEdition.Knowledge.Ledger.Ratings)!;
        Assert.Equal((2385m, 340.71m, 221.93m, "sample", 1.535m, 3662m), (week.Load, week.DailyMean, week.Deviation, week.DeviationOf, week.Monotony!.Value, week.Strain!.Value));
    }

    [Fact]
    public void The_worked_week_comes_out_with_the_population_deviation_where_the_rules_say_so()
    {
        var week = RatedWeek.Of(Ratings, TestEdition.Knowledge.Ledger.Ratings with { Deviation = "population" })!;
        Assert.Equal((205.47m, 1.658m, 3955m), (week.Deviation, week.Monotony!.Value, week.Strain!.Value));
    }

    [Fact]
    public void Seven_days_alike_have_no_monotony()
    {
        var week = RatedWeek.Of([.. Enumerable.Range(0, 7).Select(d => new SessionRating { DaysAgo = d, Effort = 5, Minutes = 60 })], TestEdition.Knowledge.Ledger.Ratings)!;
        Assert.Equal((2100m, 0m, null, null), (week.Load, week.Deviation, week.Monotony, week.Strain));
    }

    [Fact]
    public void Sessions_of_one_day_add_up_and_older_ones_do_not_count()
    {
        var week = RatedWeek.Of([new() { DaysAgo = 0, Effort = 5, Minutes = 60 }, new() { DaysAgo = 0, Effort = 2, Minutes = 30 }, new() { DaysAgo = 7, Effort = 9, Minutes = 90 }], TestEdition.Knowledge.Ledger.Ratings)!;
        Assert.Equal(360m, week.Load);
        Assert.Null(RatedWeek.Of([new() { DaysAgo = 7, Effort = 9, Minutes = 90 }], TestEdition.Knowledge.Ledger.Ratings));
    }
}
