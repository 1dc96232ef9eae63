using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using Recommender.Domain;
using Recommender.Domain.Audit;
using Recommender.Pages.Decisions;
using Recommender.Pages.Tests.Answers;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Decisions;

/// <summary>What the audit's blocks draw, added up again from what is read on the page.</summary>
public sealed class AuditBlockTests
{
    private static readonly RecommendationAsked Question = new(WhatIfTests.SoreJumper);

    [Fact]
    public void Every_list_of_the_tree_adds_up_to_what_stands_above_it_and_below_it()
    {
        using var context = new BunitContext();
        var lists = 0;
        foreach (var pick in RecommendationPipeline.Answer(WhatIfTests.SoreJumper, TestEdition.Current, "").Picks)
        {
            var tree = context.Render<ExplanationTree>(p => p.Add(t => t.Contributions, pick.Contributions).Add(t => t.Score, pick.Score).Add(t => t.Prefix, "p1")).Find("ul.tree");
            Assert.Equal(pick.Score.Value, Sum(tree));
            foreach (var list in tree.QuerySelectorAll("ul"))
            {
                Assert.Equal(Points(list.ParentElement!), Sum(list));
                lists++;
            }
        }

        Assert.InRange(lists, 20, 2000);

        static decimal Sum(IElement list)
        {
            var rows = list.Children.ToList();
            var parts = rows.Where(r => r.QuerySelector(":scope > .total") is null).Sum(Points);
            Assert.All(rows.Where(r => r.QuerySelector(":scope > .total") is not null), total => Assert.Equal(Points(total), parts));
            return parts;
        }

        static decimal Points(IElement item) => Number(item.QuerySelector(":scope > .node > .points")!.TextContent);
    }

    [Theory]
    [InlineData("front-squat", "depth-jump")]
    [InlineData("nordic-hamstring-lower", "pull-up")]
    public void A_comparison_shows_columns_that_add_up_and_marks_what_decides(string first, string second)
    {
        using var context = new BunitContext();
        var comparison = Comparisons.Of(Question, TestEdition.Current, first, second);
        var block = context.Render<ComparisonBlock>(p => p.Add(b => b.Comparison, comparison).Add(b => b.Edition, TestEdition.Current));
        var rows = block.FindAll("tbody tr").Select(r => r.QuerySelectorAll("td.num").Select(c => Number(c.TextContent)).ToArray()).ToList();
        var foot = block.FindAll("tfoot td.num").Select(c => Number(c.TextContent)).ToArray();

        Assert.Equal(foot, Enumerable.Range(0, 3).Select(i => rows.Sum(r => r[i])));
        Assert.All(rows, r => Assert.Equal(r[0] - r[1], r[2]));
        Assert.Equal(comparison.Sentence, block.Find(".lead").TextContent);
        Assert.Equal(comparison.Deciding.Count, block.FindAll("tr.decides").Count);

        // Bars: the largest difference takes half the width, the others their share of it; a positive one starts at the middle.
        var most = rows.Max(r => Math.Abs(r[2]));
        foreach (var (bar, row) in block.FindAll("svg.differ rect").Zip(rows))
        {
            Assert.InRange(Percent(bar, "width") - (50 * Math.Abs(row[2]) / most), -0.006m, 0.006m);
            Assert.InRange((row[2] < 0 ? Percent(bar, "x") + Percent(bar, "width") : Percent(bar, "x")) - 50, -0.011m, 0.011m);
        }
    }

    [Fact]
    public void Shares_of_the_first_place_add_up_to_the_whole()
    {
        using var context = new BunitContext();
        var firmness = Sensitivity.Of(Question, TestEdition.Current);
        var block = context.Render<FirmnessBlock>(p => p.Add(b => b.Firmness, firmness).Add(b => b.Edition, TestEdition.Current));

        Assert.Equal(100m, block.FindAll(".shares td.num").Sum(c => Number(c.TextContent)));
        Assert.Equal(firmness.Sentence, block.Find(".lead").TextContent);
        Assert.All(block.FindAll(".scroll tbody th"), th => Assert.DoesNotContain('/', th.TextContent));
    }

    [Theory]
    [InlineData("exercises/back-squat/qualities/max-strength", "Back squat: rating for maximal strength")]
    [InlineData("exercises/depth-jump/tissueLoad/patellar-tendon", "Depth jump: load on the patellar tendon")]
    [InlineData("rules/scoring/needMatch/fitByRating/2", "Rules: scoring, need match, fit by rating, no. 3")]
    public void A_number_is_named_as_a_person_reads_it(string number, string said) => Assert.Equal(said, NumberWords.Of(number, TestEdition.Current));

    [Theory]
    [InlineData("/picks/1/dose/sets", "Pick 2, dose, sets")]
    [InlineData("/picks/0/tissueLoad/patellar-tendon/value", "Pick 1, tissue load, patellar tendon, value")]
    [InlineData("/versions/catalogue", "Versions, catalogue")]
    [InlineData("", "The whole answer")]
    public void A_place_in_an_answer_is_named_as_a_person_reads_it(string pointer, string said) => Assert.Equal(said, NumberWords.Place(pointer, TestEdition.Vocabulary));

    [Fact]
    public void A_change_that_would_bring_it_in_is_said_and_pain_is_not_among_what_is_tried()
    {
        using var context = new BunitContext();
        string[] candidates = ["front-squat", "dumbbell-front-squat", "wall-sit", "split-squat", "goblet-squat", "box-jump", "high-step-up"];
        var exercise = candidates.First(id => Counterfactuals.Of(Question, TestEdition.Current, id, mayLowerPain: true).Counterfactuals.Any(c => c.Sentence.Contains("pain", StringComparison.OrdinalIgnoreCase)));

        var shown = Counterfactuals.Of(Question, TestEdition.Current, exercise, mayLowerPain: false);
        var block = context.Render<ChangesBlock>(p => p.Add(b => b.Changes, shown).Add(b => b.Edition, TestEdition.Current));
        Assert.All(block.FindAll("ol.changes li"), li => Assert.DoesNotContain("pain", li.TextContent, StringComparison.OrdinalIgnoreCase));
        Assert.Equal(shown.Counterfactuals.Count, block.FindAll("ol.changes li").Count);
    }

    private static decimal Number(string text) => decimal.Parse(text.Replace('−', '-').Replace(" %", "", StringComparison.Ordinal), NumberStyles.Number, CultureInfo.InvariantCulture);

    private static decimal Percent(IElement bar, string attribute) => decimal.Parse(bar.GetAttribute(attribute)!.TrimEnd('%'), CultureInfo.InvariantCulture);
}
