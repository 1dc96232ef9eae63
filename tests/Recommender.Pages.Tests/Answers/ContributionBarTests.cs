using System.Globalization;
using Bunit;
using CsCheck;
using Recommender.Domain;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Scoring;
using Recommender.Pages.Answers;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Answers;

public sealed class ContributionBarTests
{
    /// <summary>Arithmetic of the drawing against plain sums.</summary>
    [Fact]
    public void Gains_run_from_zero_and_costs_back_to_the_score() =>
        Gen.Int[-40_000, 40_000].Array[1, 9].Sample(points =>
        {
            Contribution[] contributions = [.. points.Select((p, i) => new Contribution($"f{i}", "", new Points(p), Basis.CommonPractice, null, []))];
            var (least, most) = ContributionSegments.Scale([contributions]);
            var bar = ContributionSegments.Of(contributions, least, most);
            var length = (decimal)(most - least);
            Assert.Equal(points.Where(p => p > 0).Sum(), Thousandths(bar.For.Sum(s => s.Width)));
            Assert.Equal(points.Sum(), Thousandths(bar.Score - bar.Zero));
            Assert.All(bar.For.Concat(bar.Against), s => Assert.InRange(s.Start, -0.0001m, 100.0001m));
            Assert.All(bar.For.Concat(bar.Against), s => Assert.InRange(s.Start + s.Width, -0.0001m, 100.0001m));
            decimal? end = bar.Zero;
            foreach (var gain in bar.For)
            {
                Assert.Equal(end!.Value, gain.Start, 6);
                end = gain.Start + gain.Width;
            }

            foreach (var cost in bar.Against)
            {
                Assert.Equal(end!.Value, cost.Start + cost.Width, 6);
                end = cost.Start;
            }

            int Thousandths(decimal percent) => (int)decimal.Round(percent * length / 100);
        });

    [Fact]
    public void The_sum_is_written_out_and_each_part_has_its_line()
    {
        using var context = new BunitContext();
        foreach (var pick in Answer().Picks)
        {
            var bar = context.Render<ContributionBar>(p => p
                .Add(b => b.Contributions, pick.Contributions)
                .Add(b => b.Score, pick.Score)
                .Add(b => b.Scale, ContributionSegments.Scale([pick.Contributions]))
                .Add(b => b.Prefix, "p1"));
            var sum = bar.Find("figcaption").TextContent;
            Assert.EndsWith($"= {pick.Score.Value.ToString("0.###", CultureInfo.InvariantCulture)} points", sum, StringComparison.Ordinal);
            Assert.All(pick.Contributions, c => Assert.Contains(c.Label, bar.Find($"#p1-{c.Factor}").TextContent, StringComparison.Ordinal));
            Assert.Equal(pick.Contributions.Count(c => c.Points.Thousandths != 0), bar.FindAll("rect").Count);
            Assert.All(bar.FindAll("svg a"), a => Assert.NotNull(bar.Find(a.GetAttribute("href")!)));

            // Strict policy: no style stands in a page.
            Assert.DoesNotContain("style=", bar.Markup, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_load_is_drawn_beside_the_limit_and_said_in_words()
    {
        using var context = new BunitContext();
        var answer = Answer();
        var pick = answer.Picks.First(p => p.TissueLoad.ContainsKey("patellar-tendon"));
        var limit = answer.Limits.First(l => l.Region == "patellar-tendon" && l.LoadingRate == pick.Exercise.LoadingRate);
        var load = pick.TissueLoad["patellar-tendon"];
        var drawn = context.Render<TissueLoads>(p => p.Add(t => t.Loads, pick.TissueLoad).Add(t => t.Limits, answer.Limits).Add(t => t.Rate, pick.Exercise.LoadingRate).Add(t => t.Words, TestEdition.Vocabulary));
        var first = drawn.Find(".tissue li");
        Assert.Equal((load.Value * 10).ToString("0.##", CultureInfo.InvariantCulture) + "%", first.QuerySelector(".value")!.GetAttribute("x"));
        Assert.Equal((limit.MaxTissueLoad * 10).ToString("0.##", CultureInfo.InvariantCulture) + "%", first.QuerySelector(".limit")!.GetAttribute("x1"));
        Assert.Equal(((load.High - load.Low) * 10).ToString("0.##", CultureInfo.InvariantCulture) + "%", first.QuerySelector(".range")!.GetAttribute("width"));
        Assert.Contains($"of at most {limit.MaxTissueLoad.ToString("0.###", CultureInfo.InvariantCulture)} today", first.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void A_dose_that_differs_by_side_is_shown_for_each()
    {
        using var context = new BunitContext();
        var dose = Answer().Picks.Select(p => p.Dose!).First(d => d.Sides is not null);
        var shown = context.Render<DoseBlock>(p => p.Add(d => d.Dose, dose));
        Assert.Equal([$"{dose.Sides!.Left.Sets} × {dose.Sides.Left.Amount}", $"{dose.Sides.Right.Sets} × {dose.Sides.Right.Amount}"], shown.FindAll("dd strong").Select(d => d.TextContent));
    }

    [Fact]
    public void Within_a_clearance_no_number_is_shown()
    {
        using var context = new BunitContext();
        var shown = context.Render<DoseBlock>(p => p.Add(d => d.Dose, null));
        Assert.DoesNotContain(shown.Find(".dose").TextContent, char.IsDigit);
    }

    private static Answer Answer() => RecommendationPipeline.Answer(WhatIfTests.SoreJumper, TestEdition.Current, "");
}
