using System.Globalization;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>The answer page: bars that add up, and what a change of the request would do.</summary>
[Collection(OnStage.Name)]
public sealed class AnswerTests(Stage stage)
{
    [BrowserFact]
    public async Task A_bar_ends_where_its_score_is()
    {
        var page = await stage.Open(900);
        await page.GotoAsync(await stage.Answer());

        // Geometry as drawn, in pixels: gains end to end from zero, costs back from their end, the last edge under the mark of the score.
        foreach (var bar in await page.Locator("svg.bar").AllAsync())
        {
            var boxes = await bar.EvaluateAsync<double[][]>("svg => [...svg.querySelectorAll('rect')].map(r => { const b = r.getBBox(); return [r.classList.contains('gain') ? 1 : 0, b.x, b.width]; })");
            var zero = await bar.EvaluateAsync<double>("svg => svg.querySelector('.zero').getBBox().x");
            var score = await bar.EvaluateAsync<double>("svg => svg.querySelector('.score').getBBox().x");
            var at = zero;
            foreach (var gain in boxes.Where(b => b[0] > 0))
            {
                Assert.InRange(gain[1], at - 0.6, at + 0.6);
                at += gain[2];
            }

            foreach (var cost in boxes.Where(b => b[0] == 0))
            {
                at -= cost[2];
                Assert.InRange(cost[1], at - 0.6, at + 0.6);
            }

            Assert.InRange(score, at - 0.6, at + 0.6);
        }
    }

    [BrowserFact]
    public async Task The_parts_that_are_read_add_up_to_the_score()
    {
        var page = await stage.Open(900);
        await new Coach(page).AnswerFor("NM-01");
        foreach (var sum in await page.Locator(".sum figcaption").AllInnerTextsAsync())
        {
            var sides = sum.Replace(" points", "", StringComparison.Ordinal).Replace("− ", "-", StringComparison.Ordinal).Replace("+ ", "", StringComparison.Ordinal).Replace('−', '-').Split(" = ");
            Assert.Equal(decimal.Parse(sides[1], CultureInfo.InvariantCulture), sides[0].Split(' ').Sum(p => decimal.Parse(p, CultureInfo.InvariantCulture)));
        }
    }

    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_piece_of_a_bar_opens_its_details(bool script)
    {
        var page = await stage.Open(900, script: script);
        await page.GotoAsync(await stage.Answer());
        Assert.False(await page.IsVisibleAsync("#p1-need-match"));
        await page.Locator("#pick-1 svg.bar a").First.ClickAsync();
        await page.Locator("#p1-need-match").WaitForAsync();
        Assert.EndsWith("#p1-need-match", page.Url, StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task What_if_shows_what_moved_and_can_be_recorded()
    {
        var page = await stage.Open();
        var address = await stage.Answer();
        await page.GotoAsync(address);
        var before = await page.Locator("article.pick h2").AllInnerTextsAsync();
        await page.ClickAsync(".switches a:has-text('Hotel room')");
        Assert.Contains("place=hotel", page.Url, StringComparison.Ordinal);
        var gone = await page.Locator(".what-if li strong").AllInnerTextsAsync();
        var after = await page.Locator("article.pick h2").AllInnerTextsAsync();
        Assert.Equal(before.Except(after).Order(), gone.Order());
        foreach (var (name, i) in after.Select((n, i) => (n, i)).Where(n => !before.Contains(n.n)))
        {
            Assert.Contains("New here", await page.Locator("article.pick").Nth(i).InnerTextAsync(), StringComparison.Ordinal);
        }

        await Stage.Picture(page, "what-if-360");
        await page.ClickAsync(".what-if button");
        await page.WaitForURLAsync(u => !u.Contains("place=hotel", StringComparison.Ordinal));
        Assert.NotEqual(address, new Uri(page.Url).AbsolutePath);
        Assert.Equal(after, await page.Locator("article.pick h2").AllInnerTextsAsync());
    }

    [BrowserFact]
    public async Task Pain_can_be_looked_at_higher_and_never_lower()
    {
        var page = await stage.Open();
        await page.GotoAsync(await stage.Answer());
        var before = await page.InnerTextAsync(".situation");
        Assert.Equal(["", "1", "2", "3", "4", "5", "6", "7"], await page.Locator("select[name=painUp] option").EvaluateAllAsync<string[]>("all => all.map(o => o.value)"));
        await page.GotoAsync(new Uri(page.Url).AbsolutePath + "?painUp=-3");
        Assert.Equal(before, await page.InnerTextAsync(".situation"));
        await page.ClickAsync(".switches a:has-text('Pain 1 higher')");
        Assert.Contains("4/10", await page.InnerTextAsync(".situation"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Red_flags_that_were_not_asked_about_are_not_the_same_as_none()
    {
        var page = await stage.Open();
        await new Coach(page).AnswerFor("NM-04");
        Assert.Contains("not asked", await page.InnerTextAsync(".notice"), StringComparison.Ordinal);
        await page.ClickAsync(".notice a");
        await page.ClickAsync("[data-set=knee] .asked-all input");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
        Assert.Equal(0, await page.Locator(".notice").CountAsync());

        // And a yes sends to a clinician: a locked knee the same day.
        await page.ClickAsync("text=Change the request");
        await page.ClickAsync("[data-set=knee] li:has-text('get stuck') input[value=yes]");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
        Assert.Contains("See a clinician today", await page.InnerTextAsync(".referral"), StringComparison.Ordinal);
        await Stage.Picture(page, "referral-360");
    }
}
