using System.Globalization;
using Recommender.Domain.Needs.Measures;

namespace Recommender.Domain.Tests.Needs.Measures;

/// <summary>Equations for the one-repetition maximum against worked examples; each row of one-rm-examples.json names who printed the equation.</summary>
public sealed class OneRepMaxEstimateTests
{
    public static TheoryData<string> Rows => [.. WorkedExamples.OneRepMaxima.Select(e => e.Id)];

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_worked_example_comes_out_as_printed(string id)
    {
        var row = WorkedExamples.OneRepMaxima.Single(e => e.Id == id);
        var (load, reps) = (row.LoadKg, row.Repetitions);
        var value = id[..id.IndexOf('-', StringComparison.Ordinal)] switch
        {
            "epley" => OneRepMaxEstimate.Epley(load, reps),
            "brzycki" => OneRepMaxEstimate.Brzycki(load, reps),
            "lombardi" => OneRepMaxEstimate.Lombardi(load, reps),
            "oconner" => OneRepMaxEstimate.OConner(load, reps),
            "wathan" => OneRepMaxEstimate.Wathan(load, reps),
            "lander" => OneRepMaxEstimate.Lander(load, reps),
            _ => throw new InvalidOperationException($"No equation for {id}."),
        };
        Assert.Equal(row.Expected, value.ToString("0.00", CultureInfo.InvariantCulture));
        Assert.Equal(row.Percent, (100 * load / value).ToString("0.0", CultureInfo.InvariantCulture));
    }

    [Fact]
    public void One_repetition_is_the_maximum_itself() => Assert.Equal(100, OneRepMaxEstimate.Lowest(100, 1));

    [Fact]
    public void The_lowest_of_the_general_equations_counts_and_is_rounded_down()
    {
        // 100 kg x 5: Brzycki and O'Conner give 112.50, the others more. 100 kg x 10: O'Conner gives 125.00.
        Assert.Equal(112.5m, OneRepMaxEstimate.Lowest(100, 5));
        Assert.Equal(125m, OneRepMaxEstimate.Lowest(100, 10));
        // 99.1 kg x 4: Brzycki gives 99.1 x 36 / 33 = 108.109.
        Assert.Equal(108.1m, OneRepMaxEstimate.Lowest(99.1m, 4));
    }

    [Theory]
    [InlineData(100, 0)]
    [InlineData(100, 11)]
    [InlineData(0, 5)]
    public void Outside_what_the_equations_hold_for_nothing_is_estimated(int load, int repetitions) => Assert.Null(OneRepMaxEstimate.Lowest(load, repetitions));

    [Fact]
    public void More_repetitions_or_more_load_never_lower_the_estimate()
    {
        for (var load = 20m; load <= 300; load += 7.5m)
        {
            var before = 0m;
            for (var reps = 1; reps <= OneRepMaxEstimate.MostRepetitions; reps++)
            {
                var estimate = OneRepMaxEstimate.Lowest(load, reps)!.Value;
                Assert.True(estimate >= before && estimate >= load, $"{load} kg x {reps}: {estimate} after {before}.");
                Assert.True(OneRepMaxEstimate.Lowest(load + 7.5m, reps) > estimate);
                before = estimate;
            }
        }
    }
}
