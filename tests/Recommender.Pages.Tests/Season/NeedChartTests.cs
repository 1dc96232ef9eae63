using System.Globalization;
using Bunit;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Season;
using Recommender.Pages.Season;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Season;

public sealed class NeedChartTests
{
    [Fact]
    public void Columns_are_in_proportion_to_the_weights_and_carry_their_numbers()
    {
        using var context = new BunitContext();
        var series = new NeedSeries("max-strength", [0.2m, 0.1m, 0m, 0.05m]);
        var chart = context.Render<NeedChart>(p => p.Add(c => c.Series, series).Add(c => c.Greatest, 0.2m).Add(c => c.Words, TestEdition.Vocabulary));
        var heights = chart.FindAll("rect").Select(r => decimal.Parse(r.GetAttribute("height")!, CultureInfo.InvariantCulture)).ToList();
        Assert.Equal([heights[0], heights[0] / 2, 0, heights[0] / 4], heights);
        Assert.Equal(["20", "10", "0", "5"], chart.FindAll("text:not(.axis)").Select(t => t.TextContent));
        Assert.Equal(["1", "2", "3", "4"], chart.FindAll("text.axis").Select(t => t.TextContent));
        Assert.Single(chart.FindAll("rect.now"));

        // Strict policy: no style stands in a page.
        Assert.Empty(chart.FindAll("[style]"));
    }

    [Fact]
    public void Series_hold_every_need_of_every_phase_heaviest_first()
    {
        var request = new RecommendationRequest { Athlete = new AthleteFacts { Event = "discus", EventGroup = "throws" } };
        var outlook = SeasonOutlook.Of(request, SeasonPlan.Of(200, null, new Dictionary<Phase, int>(), TestEdition.Knowledge.Planning!.Season), TestEdition.Current);
        var series = NeedSeries.Of(outlook.Phases, TestEdition.Vocabulary);
        Assert.Equal(outlook.Phases.Count, series[0].Weights.Count);
        Assert.All(Enumerable.Range(0, outlook.Phases.Count), i => Assert.Equal(1m, series.Sum(s => s.Weights[i])));
        Assert.Equal(series.Select(s => s.Weights.Max()).OrderDescending(), series.Select(s => s.Weights.Max()));
    }
}
