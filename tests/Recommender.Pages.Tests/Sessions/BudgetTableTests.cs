using Bunit;
using Recommender.Domain.Ledger;
using Recommender.Pages.Sessions;
using Recommender.Testing;

namespace Recommender.Pages.Tests.Sessions;

/// <summary>Work by tissue, and how the week stands to a usual one.</summary>
public sealed class BudgetTableTests : BunitContext
{
    private static readonly Dictionary<string, SideTotal> Totals = new() { ["quadriceps"] = new(120, 90), ["shoulder"] = new(10, 10) };

    [Fact]
    public void The_side_that_is_further_above_the_usual_week_is_told()
    {
        var usual = new UsualWeek(3, Totals, new Dictionary<string, SideShare> { ["quadriceps"] = new(1.25m, 0.9m), ["shoulder"] = new(null, 0.5m) }, "no permission");

        var rows = Table(usual).FindAll("tbody tr").Select(r => r.TextContent).ToList();

        Assert.EndsWith("125 %", rows[0], StringComparison.Ordinal);
        Assert.EndsWith("50 %", rows[1], StringComparison.Ordinal);
        Assert.EndsWith("not usual", Table(usual with { Share = new Dictionary<string, SideShare>() }).FindAll("tbody tr")[0].TextContent, StringComparison.Ordinal);
        Assert.Contains("no permission", Table(usual).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_usual_week_nothing_is_told_of_one() => Assert.Equal(3, Table(null).FindAll("thead th").Count);

    private IRenderedComponent<BudgetTable> Table(UsualWeek? usual) =>
        Render<BudgetTable>(p => p.Add(b => b.Budgets, []).Add(b => b.Totals, Totals).Add(b => b.Words, TestEdition.Vocabulary).Add(b => b.Usual, usual));
}
