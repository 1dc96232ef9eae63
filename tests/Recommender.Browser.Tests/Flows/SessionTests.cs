using System.Globalization;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>A session: asked for, changed by what is kept and left out, its minutes and budgets shown as drawn and as read.</summary>
[Collection(OnStage.Name)]
public sealed class SessionTests(Stage stage)
{
    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task What_is_kept_stays_and_what_is_left_out_goes(bool script)
    {
        var page = await stage.Open(360, script: script);
        await page.GotoAsync("/sessions?athlete=NM-01");
        await page.FillAsync("#f-setting-minutes", "30");
        await page.FillAsync("#f-slots-min", "4");
        await page.FillAsync("#f-slots-max", "5");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/sessions/*");
        var names = await page.Locator(".order a").AllInnerTextsAsync();
        Assert.InRange(names.Count, 4, 5);
        var first = page.Url;

        await page.CheckAsync(".order li:nth-child(1) input[name=locked]");
        await page.CheckAsync(".order li:nth-child(2) input[name=avoid]");
        await page.ClickAsync("text=Choose again");
        await page.WaitForURLAsync(u => u != first && u.Contains("/sessions/", StringComparison.Ordinal));
        var after = await page.Locator(".order a").AllInnerTextsAsync();
        Assert.Contains(names[0], after);
        Assert.DoesNotContain(names[1], after);
        Assert.True(await page.IsCheckedAsync($".order li:has-text(\"{names[0]}\") input[name=locked]"));

        // What was left out stays so the next time, since the form still holds it.
        Assert.True(await page.IsCheckedAsync(".elsewhere input[name=avoid]"));
        Assert.Contains("stayed", await page.InnerTextAsync("main"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Minutes_as_read_add_up_and_end_where_the_session_says()
    {
        var page = await stage.Open(900);
        await page.GotoAsync(await stage.Session());
        await page.ClickAsync(".strip summary");
        var rows = await page.Locator(".strip tbody tr").EvaluateAllAsync<string[][]>("rows => rows.map(r => [...r.children].map(c => c.textContent))");
        decimal Cell(string[] row, int i) => decimal.Parse(row[i].Replace('−', '-'), CultureInfo.InvariantCulture);
        var picks = rows[..^4];

        // Each cell is rounded to a tenth, so a row may be off by what three roundings leave.
        Assert.All(picks, r => Assert.InRange(Cell(r, 4) - Cell(r, 1) - Cell(r, 2) - Cell(r, 3), -0.15m, 0.15m));
        Assert.InRange(picks.Sum(r => Cell(r, 4)) - Cell(rows[^4], 4), -0.1m * picks.Length, 0.1m * picks.Length);
        Assert.Equal(Cell(rows[^1], 4), Cell(rows[^4], 4) + Cell(rows[^3], 4) + Cell(rows[^2], 4));
        Assert.StartsWith(Cell(rows[^1], 4).ToString("0.#", CultureInfo.InvariantCulture) + " minutes", await page.InnerTextAsync(".strip figcaption"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task A_lock_that_a_check_refuses_says_why_and_gives_no_session()
    {
        var page = await stage.Open();
        await page.GotoAsync("/sessions");
        await page.SelectOptionAsync("#f-athlete-event", "long-jump");
        await page.SelectOptionAsync("#f-phase", "competition");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/sessions/*");
        var locked = await page.GetAttributeAsync(".order li:nth-child(1) input[name=locked]", "value");
        await page.EvaluateAsync("document.querySelector('.order input[name=locked]').value = 'power-clean'");
        await page.CheckAsync(".order li:nth-child(1) input[name=locked]");
        await page.ClickAsync("text=Choose again");
        await page.Locator("#blocks").WaitForAsync();
        Assert.Contains("Power clean", await page.InnerTextAsync("section[aria-labelledby=blocks]"), StringComparison.Ordinal);
        Assert.NotEqual("power-clean", locked);
    }
}
