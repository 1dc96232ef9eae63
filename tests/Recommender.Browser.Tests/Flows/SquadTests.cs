using Deque.AxeCore.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>A coach's spreadsheet comes in, is looked at, is put right and saved, and a group gets its sheet.</summary>
[Collection(OnStage.Name)]
public sealed class SquadTests(Stage stage)
{
    private const string Sheet = "Athlete,Discipline,Block,Weeks out,Hurts,Side,Pain\nTamsin Orrell,Discus,Taper,1,,,\nBede Varga,Moon jump,Taper,1,,,\nIlse <b>Kern</b>,High jump,Competition,3,Patellar tendon,left,4\n";

    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_spreadsheet_is_previewed_saved_and_made_into_a_sheet(bool script)
    {
        var page = await stage.Open(360, script: script);
        await page.GotoAsync("/squad/import");

        // Names of its own for each case: what one saved would be no change for the other.
        var sort = script ? "a" : "b";
        await page.FillAsync("textarea[name=text]", Sheet.Replace("Orrell", "Orrell " + sort, StringComparison.Ordinal).Replace("Ilse", "Ilse " + sort, StringComparison.Ordinal));
        await page.ClickAsync("button.main");
        await page.Locator(".rows").WaitForAsync();
        Assert.Contains("is no event known here", await page.InnerTextAsync(".rows > li:nth-child(2)"), StringComparison.Ordinal);
        Assert.Contains($"Ilse {sort} <b>Kern</b>", await page.InnerTextAsync(".rows > li:nth-child(3)"), StringComparison.Ordinal);
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "squad-preview-360" + (script ? "" : "-no-script"));
        if (script)
        {
            var axe = await page.RunAxe();
            Assert.True(axe.Violations.Length == 0, string.Join('\n', axe.Violations.Select(v => $"{v.Id}: {v.Nodes[0].Html}")));
        }

        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/squad?saved=*");
        Assert.Equal(0, await page.Locator(".squad li:has-text('Bede Varga')").CountAsync());
        await page.CheckAsync(".squad li:has-text('Tamsin Orrell " + sort + "') input");
        await page.CheckAsync(".squad li:has-text('Ilse " + sort + "') input");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/squad/sheet?*");
        Assert.Equal([$"Ilse {sort} <b>Kern</b>", $"Tamsin Orrell {sort}"], (await page.Locator("section.athlete h2").AllInnerTextsAsync()).Order());
        Assert.Equal(8, await page.Locator(".sheet tbody tr").CountAsync());
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "squad-sheet-360" + (script ? "" : "-no-script"));
    }
}
