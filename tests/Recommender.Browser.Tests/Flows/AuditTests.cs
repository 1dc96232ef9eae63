using System.Globalization;
using Microsoft.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>Staff look at the record: search, open, compare, try, replay, walk.</summary>
[Collection(OnStage.Name)]
public sealed class AuditTests(Stage stage)
{
    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task From_an_answer_to_why_one_stands_above_another(bool script)
    {
        var page = await stage.Open(360, script: script);
        await page.GotoAsync(await stage.Answer());
        var names = await page.Locator("article.pick h2").AllInnerTextsAsync();
        await page.ClickAsync("#pick-3 a:has-text('Compare')");
        Assert.Contains("/decisions/", page.Url, StringComparison.Ordinal);
        Assert.Equal($"{names[2]} beside {names[0]}", await page.InnerTextAsync("#compared h3"));
        Assert.StartsWith(names[0] + " is above " + names[2], await page.InnerTextAsync("#compared .lead"), StringComparison.Ordinal);

        // Columns as read add up to the line below them, and to the points of the picks themselves.
        var rows = await page.Locator(".compared tbody tr").EvaluateAllAsync<string[][]>("rows => rows.map(r => [...r.querySelectorAll('td.num')].map(c => c.textContent))");
        var foot = await page.Locator(".compared tfoot td.num").AllTextContentsAsync();
        for (var column = 0; column < 3; column++)
        {
            Assert.Equal(Number(foot[column]), rows.Sum(r => Number(r[column])));
        }

        Assert.EndsWith($"= {foot[1]} points", await page.InnerTextAsync("section.explained >> nth=0 >> figcaption"), StringComparison.Ordinal);
        Assert.Equal(0, await new Coach(page).Overflow());

        // Any name can be typed, also of what was left out; a name that is none is said beside its field.
        await page.FillAsync("input[name=second]", "depth jump");
        await page.ClickAsync("button:has-text('Compare')");
        Assert.Equal($"{names[2]} beside Depth jump", await page.InnerTextAsync("#compared h3"));
        Assert.Contains("left out", await page.InnerTextAsync("#compared"), StringComparison.Ordinal);
        Assert.Contains("would be allowed if", await page.InnerTextAsync("#compared"), StringComparison.Ordinal);
        await page.FillAsync("input[name=second]", "<b>depth</b>");
        await page.ClickAsync("button:has-text('Compare')");
        Assert.Contains("The catalogue has no “<b>depth</b>”. Did you mean", await page.InnerTextAsync("#fault-second"), StringComparison.Ordinal);
        Assert.Equal("fault-second", await page.GetAttributeAsync("input[name=second]", "aria-describedby"));
        Assert.Equal("<b>depth</b>", await page.InputValueAsync("input[name=second]"));
        Assert.Equal(names[2], await page.InputValueAsync("input[name=first]"));
    }

    [BrowserFact]
    public async Task What_would_have_changed_it_how_firm_it_is_and_whether_it_comes_out_the_same()
    {
        var page = await stage.Open(360, script: false);
        await page.GotoAsync(await stage.Decision());
        await page.FillAsync("input[name=exercise]", "Depth jump");
        await page.ClickAsync("button:has-text('Try changes')");
        Assert.Contains("Pain is not among them", await page.InnerTextAsync("#changed"), StringComparison.Ordinal);
        Assert.All(await page.Locator("#changed li").AllInnerTextsAsync(), change => Assert.DoesNotContain("pain", change, StringComparison.OrdinalIgnoreCase));

        await page.ClickAsync("a:has-text('Try it')");
        var shares = await page.Locator(".shares td.num").AllInnerTextsAsync();
        Assert.Equal(100, shares.Sum(s => Number(s.Replace(" %", "", StringComparison.Ordinal))));
        Assert.Contains("plausible weightings", await page.InnerTextAsync("#firm .lead"), StringComparison.Ordinal);

        await page.ClickAsync("button:has-text('On its own versions')");
        Assert.Contains("the same, byte for byte", await page.InnerTextAsync(".lead"), StringComparison.Ordinal);
        await Stage.Picture(page, "replay-same-360");
        await page.ClickAsync("text=Back to the decision");
        Assert.Equal(await stage.Decision(), new Uri(page.Url).AbsolutePath);
    }

    [BrowserFact]
    public async Task The_tree_is_read_with_the_keyboard_and_adds_up()
    {
        var page = await stage.Open(1000);
        await page.GotoAsync(await stage.Decision());
        for (var i = 0; i < 60 && !await page.EvaluateAsync<bool>("document.activeElement.matches('section.explained summary')"); i++)
        {
            await page.Keyboard.PressAsync("Tab");
            Assert.True(await page.EvaluateAsync<bool>("getComputedStyle(document.activeElement).outlineStyle !== 'none'"), "focus is not seen on " + await page.EvaluateAsync<string>("document.activeElement.outerHTML.slice(0, 120)"));
        }

        await page.Keyboard.PressAsync("Enter");
        Assert.True(await page.IsVisibleAsync("#p1-need-match"));
        var parts = await page.Locator("section.explained >> nth=0 >> ul.tree > li > .node > .points").AllInnerTextsAsync();
        Assert.Equal(Number(parts[^1]), parts.SkipLast(1).Sum(Number));
        await Stage.Picture(page, "decision-tree-1000");
    }

    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task The_record_is_searched_by_names_paged_and_walked(bool script)
    {
        var address = await stage.Decision();
        var page = await stage.Open(360, script: script);
        await page.GotoAsync("/decisions");
        await page.FillAsync("input[name=athlete]", "Solveig Amadi");
        await page.SelectOptionAsync("select[name=kind]", "recommendation");
        await page.ClickAsync("button:has-text('Search')");
        Assert.Contains("athlete=Solveig", page.Url, StringComparison.Ordinal);
        Assert.True(await page.Locator($".reflow a[href='{address}']").CountAsync() == 1);
        Assert.All(await page.Locator(".reflow tbody td:nth-child(2)").AllInnerTextsAsync(), name => Assert.Equal("Solveig Amadi", name.TrimEnd(',', ' ')));
        Assert.Contains("athlete=NM-04", await page.GetAttributeAsync("a:has-text('NDJSON')", "href"), StringComparison.Ordinal);

        await page.FillAsync("input[name=coach]", "<script>nobody</script>");
        await page.ClickAsync("button:has-text('Search')");
        Assert.Contains("No decision fits", await page.InnerTextAsync("p[role=status]"), StringComparison.Ordinal);
        Assert.Equal("<script>nobody</script>", await page.InputValueAsync("input[name=coach]"));

        await page.GotoAsync("/decisions?from=soon&kind=plan&after=cut");
        Assert.Contains("“soon” is no day", await page.InnerTextAsync("#fault-from"), StringComparison.Ordinal);
        Assert.Contains("“plan” is none that there is", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.Contains("cut short", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.Equal(0, await new Coach(page).Overflow());

        await page.FillAsync("input[name=head]", "beef");
        await page.ClickAsync("button:has-text('Walk the record')");
        Assert.Contains("That is no hash", await page.InnerTextAsync(".notice"), StringComparison.Ordinal);
        Assert.Equal("beef", await page.InputValueAsync("input[name=head]"));
        await page.FillAsync("input[name=head]", await page.InnerTextAsync("#chain ~ p code.hash"));
        await page.ClickAsync("button:has-text('Walk the record')");
        await page.Locator("text=The record is whole.").WaitForAsync();
        Assert.Contains("nothing before it was changed since", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.False(await page.IsVisibleAsync(".stop-work"));
        await page.GotoAsync("/decisions");
        await page.FillAsync("input[name=head]", new string('0', 64));
        await page.ClickAsync("button:has-text('Walk the record')");
        await page.Locator("text=No record carries the hash you noted").WaitForAsync();
        await Stage.Picture(page, "walk-360" + (script ? "" : "-no-script"));
    }

    [BrowserFact]
    public async Task Hostile_text_of_a_request_is_shown_as_text()
    {
        const string hostile = "\"><img src=x onerror=\"document.title='owned'\"></pre><script>document.title='owned'</script>";
        var page = await stage.Open();
        await page.GotoAsync("/?athlete=NM-04");
        await page.FillAsync("#f-complaints-0-note", hostile);
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
        await page.ClickAsync("text=Why, on record");
        Assert.Contains(hostile, await page.InnerTextAsync("section[aria-labelledby=asked]"), StringComparison.Ordinal);
        await page.ClickAsync("summary:has-text('The request as it was sent')");
        Assert.Contains("onerror=", await page.InnerTextAsync("pre.json"), StringComparison.Ordinal);
        Assert.Equal(0, await page.Locator("main img").CountAsync());
        Assert.DoesNotContain("owned", await page.TitleAsync(), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task An_erased_athletes_decision_can_still_be_checked()
    {
        var page = await stage.Open();
        await page.Context.APIRequest.PutAsync("/v1/athletes/GONE-1", new APIRequestContextOptions { DataObject = new { name = "Gone Soon", athlete = new { @event = "javelin" }, phase = "taper" } });
        var address = await new Coach(page).AnswerFor("GONE-1");
        await page.Context.APIRequest.DeleteAsync("/v1/athletes/GONE-1");
        await page.GotoAsync(address.Replace("/answers/", "/decisions/", StringComparison.Ordinal));
        Assert.Equal("Name erased", await page.InnerTextAsync("h1"));
        Assert.Contains("were erased", await page.InnerTextAsync("section[aria-labelledby=asked]"), StringComparison.Ordinal);
        Assert.DoesNotContain("GONE-1", await page.ContentAsync(), StringComparison.Ordinal);
        await page.ClickAsync("button:has-text('On today')");
        Assert.Contains("the same, byte for byte", await page.InnerTextAsync(".lead"), StringComparison.Ordinal);
    }

    private static decimal Number(string text) => decimal.Parse(text.Replace('−', '-'), NumberStyles.Number, CultureInfo.InvariantCulture);
}
