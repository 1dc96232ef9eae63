using Microsoft.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>A season looked at, a profile put right and handed over, a sheet shared: by keyboard and without script.</summary>
[Collection(OnStage.Name)]
public sealed class SeasonAndHandOverTests(Stage stage)
{
    [BrowserFact]
    public async Task A_season_is_asked_for_by_keyboard_alone()
    {
        var page = await stage.Open(360);
        await page.GotoAsync("/season");
        await page.FocusAsync("#f-event");
        await page.Keyboard.TypeAsync("Discus");
        await page.Keyboard.PressAsync("Tab");
        await page.FocusAsync("#f-weeksToCompetition");
        await page.Keyboard.TypeAsync("9");
        await page.Keyboard.PressAsync("Enter");
        await page.Locator(".ends").WaitForAsync();
        Assert.Contains("Trunk work, crawls and carries that make sore stop three weeks before the competition in throwing.", await page.InnerTextAsync(".ends"), StringComparison.Ordinal);

        // The table says what the charts say.
        await page.ClickAsync("details:has(.season-needs) summary");
        var drawn = await page.Locator(".small-multiple").First.Locator("text:not(.axis)").AllTextContentsAsync();
        var told = await page.Locator(".season-needs tbody tr").First.Locator("td").AllInnerTextsAsync();
        Assert.Equal(drawn, told.Select(t => Math.Round(decimal.Parse(t.Replace(" %", "", StringComparison.Ordinal), System.Globalization.CultureInfo.InvariantCulture), MidpointRounding.AwayFromZero).ToString(System.Globalization.CultureInfo.InvariantCulture)));
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task A_profile_is_put_right_without_script_and_nothing_typed_is_lost()
    {
        var page = await stage.Open(360, script: false);
        await page.GotoAsync("/athletes/NM-12/edit");
        await page.SelectOptionAsync("#f-athlete-restrictions-0-region", "shoulder");
        await page.FillAsync("#f-athlete-restrictions-0-by", "<i>club</i> physiotherapist");
        await page.FillAsync("#f-competitions-0-date", DateTime.UtcNow.AddDays(9).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        await page.FillAsync("#f-weeksToCompetition", "");
        await page.ClickAsync("button.main");

        // A restriction says what it restricts.
        await page.Locator(".faults").WaitForAsync();
        Assert.Equal("<i>club</i> physiotherapist", await page.InputValueAsync("#f-athlete-restrictions-0-by"));
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "athlete-edit-faults-360");
        await page.SelectOptionAsync("#f-athlete-restrictions-0-maxLoadingRate", "slow");
        await page.FillAsync("#f-athlete-restrictions-0-review", DateTime.UtcNow.AddDays(-3).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/athletes/NM-12?saved=1");
        Assert.Contains("Review overdue", await page.InnerTextAsync(".stop"), StringComparison.Ordinal);
        Assert.Contains("Written by <i>club</i> physiotherapist", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        Assert.Contains("in 9 days", await page.InnerTextAsync(".next"), StringComparison.Ordinal);
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await page.SetViewportSizeAsync(760, 1080);
        await Stage.Picture(page, "athlete-print");
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task A_group_trades_picks_and_sees_its_stations()
    {
        var page = await stage.Open(360, script: false);
        await page.GotoAsync("/squad");
        await page.ClickAsync("button[name=all]");
        await page.WaitForURLAsync("**/squad/sheet?*");
        var trades = await page.Locator("input[name=trade]").CountAsync();
        Assert.True(trades > 0);
        await page.ClickAsync(".trades button.main");
        await page.WaitForURLAsync("**trade=*");
        Assert.Equal(trades, await page.GetByText("shared, instead of").CountAsync());
        await page.FillAsync("input[name=racks]", "1");
        await page.ClickAsync(".stations button");
        await page.WaitForURLAsync("**racks=1*");
        Assert.Equal(0, await page.Locator("th:text-is('Rack 2')").CountAsync());
        Assert.Equal(trades, await page.GetByText("shared, instead of").CountAsync());
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "group-traded-360");
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        await page.SetViewportSizeAsync(760, 1080);
        await Stage.Picture(page, "group-print");
        await page.Context.CloseAsync();
    }
}
