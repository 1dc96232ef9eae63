using System.Text.Json.Nodes;
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
            await Axe.FindsNothing(page, "light");
        }

        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/squad?saved=*");
        Assert.Equal(0, await page.Locator(".squad li:has-text('Bede Varga')").CountAsync());
        await page.CheckAsync(".squad li:has-text('Tamsin Orrell " + sort + "') input");
        await page.CheckAsync(".squad li:has-text('Ilse " + sort + "') input");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/squad/sheet?*");
        Assert.Equal([$"Ilse {sort} <b>Kern</b>", $"Tamsin Orrell {sort}"], (await page.Locator("section.athlete h2").AllInnerTextsAsync()).Order());
        Assert.Equal(8, await page.Locator("section.athlete .sheet tbody tr").CountAsync());
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "squad-sheet-360" + (script ? "" : "-no-script"));
    }

    /// <summary>Some hundred rows: how far it is, and a stop that keeps what was saved and leaves the rest to the next time.</summary>
    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_long_spreadsheet_is_saved_with_a_count_and_can_be_stopped(bool script)
    {
        var page = await stage.Open(360, script: script);
        var (sort, count) = script ? ("Long", 450) : ("Plain", 210);
        var rows = "Athlete,Discipline,Block\n" + string.Join('\n', Enumerable.Range(1, count).Select(i => $"{sort} {i},Discus,Taper"));
        await page.GotoAsync("/squad/import");
        await page.FillAsync("textarea[name=text]", rows);
        await page.ClickAsync("button.main");
        await page.Locator(".rows").WaitForAsync();
        await page.ClickAsync("button.main");
        if (script)
        {
            await page.Locator("progress:visible").WaitForAsync();
            await page.ClickAsync(".stop-work a");
            await Task.WhenAny(page.Locator(".stopped").WaitForAsync(), page.Locator("text=To the squad").WaitForAsync(), page.WaitForURLAsync("**/squad"));
            await page.GotoAsync("/squad/import");
            await page.FillAsync("textarea[name=text]", rows);
            await page.ClickAsync("button.main");
            var said = await page.Locator(".rows > li").AllInnerTextsAsync();
            Assert.Equal(count, said.Count);
            Assert.All(said, row => Assert.True(row.Contains("no change", StringComparison.Ordinal) || row.Contains("new:", StringComparison.Ordinal), row));
            Assert.Contains(said, row => row.Contains("no change", StringComparison.Ordinal));
        }
        else
        {
            await page.Locator($"text={count} athletes saved.").WaitForAsync();
            Assert.False(await page.IsVisibleAsync(".stop-work"));
            await page.ClickAsync("text=To the squad");
            Assert.Equal(count, await page.Locator(".squad li:has-text('Plain ')").CountAsync());
        }

        // The others share this squad.
        var squad = JsonNode.Parse(await (await page.Context.APIRequest.GetAsync("/v1/athletes")).TextAsync())!["items"]!.AsArray();
        foreach (var reference in squad.Where(a => ((string)a!["name"]!).StartsWith(sort + " ", StringComparison.Ordinal)).Select(a => (string)a!["ref"]!))
        {
            await page.Context.APIRequest.DeleteAsync("/v1/athletes/" + Uri.EscapeDataString(reference));
        }
    }
}
