using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>A jumper with a sore knee, in a hotel: ask, swap the second pick, print.</summary>
[Collection(OnStage.Name)]
public sealed partial class AskToPrintTests(Stage stage)
{
    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_coach_with_a_phone_asks_swaps_and_prints(bool script)
    {
        var page = await stage.Open(360, script: script);
        var coach = new Coach(page);
        await coach.ChooseAthlete("NM-04", script);
        Assert.Equal("3", await page.InputValueAsync("#f-complaints-0-pain"));
        await coach.Choose("#f-setting-place", "hotel");
        await coach.Tap("[data-set=knee] .asked-all input");
        await coach.Ask();
        Assert.Equal("Solveig Amadi", await page.InnerTextAsync("h1"));
        Assert.Contains("hotel room", await page.InnerTextAsync(".situation"), StringComparison.Ordinal);
        Assert.Equal(0, await page.Locator(".notice").CountAsync());
        var second = await page.InnerTextAsync("#pick-2 h2");

        await coach.Tap("#pick-2 a.button:has-text('Swap')");
        Assert.Contains(second, await page.InnerTextAsync("h1"), StringComparison.Ordinal);
        var taken = await page.InnerTextAsync("article h2 >> nth=0");
        await coach.Tap("article button >> nth=0");
        Assert.Equal(taken, await page.InnerTextAsync("#pick-2 h2"));
        Assert.Contains(second, await page.InnerTextAsync("#pick-2 .mark"), StringComparison.Ordinal);

        await coach.Tap("text=Print >> nth=0");
        Assert.Contains("/print", page.Url, StringComparison.Ordinal);
        Assert.Equal(taken, await page.InnerTextAsync(".sheet tbody tr:nth-child(2) th"));
        Assert.Equal(0, await coach.Overflow());

        // Saved athlete 2, place 2, questions 1, ask 1, swap 1, take 1, print 1; without script one more to fill in.
        Assert.Equal(script ? 9 : 10, coach.Taps);
    }

    [BrowserTheory]
    [InlineData("A4")]
    [InlineData("Letter")]
    public async Task The_print_is_one_page(string format)
    {
        var page = await stage.Open(1200);
        await page.GotoAsync(await stage.Answer() + "/print");
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        var pdf = System.Text.Encoding.Latin1.GetString(await page.PdfAsync(new PagePdfOptions { Format = format }));
        Assert.Single(PdfPage().Matches(pdf));
        Assert.False(await page.IsVisibleAsync("nav"));

        // Black on white, whatever the screen's scheme: what carries meaning is no colour.
        Assert.Equal("rgb(255, 255, 255)", await page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor"));
        Assert.Equal("rgb(0, 0, 0)", await page.EvaluateAsync<string>("getComputedStyle(document.querySelector('.sheet th[scope=row]')).color"));
        Assert.NotEqual(0, await page.Locator(".blank").CountAsync());
        Assert.Contains("top", await page.InnerTextAsync(".stop"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Two_choices_are_enough()
    {
        var page = await stage.Open();
        var coach = new Coach(page);
        await page.GotoAsync("/");
        await coach.Choose("#f-athlete-event", "discus");
        await coach.Choose("#f-phase", "competition");
        await coach.Ask();
        Assert.Equal(6, await page.Locator("article.pick").CountAsync());
        Assert.Contains("club gym", await page.InnerTextAsync("section[aria-labelledby=assumed]"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task Keyboard_alone_is_enough_and_shows_where_it_is()
    {
        var page = await stage.Open(1000);
        await page.GotoAsync("/");
        await page.Keyboard.PressAsync("Tab");
        Assert.Equal("To the content", await page.EvaluateAsync<string>("document.activeElement.textContent"));
        await page.Keyboard.PressAsync("Enter");
        await TabTo(page, "f-athlete-event");
        await page.Keyboard.TypeAsync("Long jump");
        await TabTo(page, "f-phase");
        await page.Keyboard.TypeAsync("Taper");
        for (var i = 0; i < 60 && !await page.EvaluateAsync<bool>("document.activeElement.matches('button.main')"); i++)
        {
            await page.Keyboard.PressAsync("Tab");
            Assert.True(await page.EvaluateAsync<bool>("getComputedStyle(document.activeElement).outlineStyle !== 'none'"), "focus is not seen on " + await page.EvaluateAsync<string>("document.activeElement.outerHTML.slice(0, 120)"));
        }

        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/answers/*");
        Assert.Contains("Long jump, taper", await page.InnerTextAsync(".situation"), StringComparison.Ordinal);
        for (var i = 0; i < 60 && !await page.EvaluateAsync<bool>("document.activeElement.matches('#pick-1 summary')"); i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Enter");
        Assert.True(await page.EvaluateAsync<bool>("document.activeElement.parentElement.open"));
    }

    private static async Task TabTo(IPage page, string id)
    {
        for (var i = 0; i < 30 && await page.EvaluateAsync<string>("document.activeElement.id") != id; i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Equal(id, await page.EvaluateAsync<string>("document.activeElement.id"));
    }

    [GeneratedRegex(@"/Type\s*/Page\b")]
    private static partial Regex PdfPage();
}
