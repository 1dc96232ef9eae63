using System.Text;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>Staff change a number: a file comes in, is put right, tried, put in force, told in a replay, and taken back.</summary>
[Collection(OnStage.Name)]
public sealed class VersionsTests(Stage stage)
{
    [BrowserFact]
    public async Task A_file_with_errors_tells_them_all_and_keeps_nothing()
    {
        var page = await stage.Open(360, script: false);
        await page.GotoAsync("/versions/upload");
        var table = (await Table(page)).Take(4).ToList();
        table[1] = table[1].Replace("common-practice", "hearsay", StringComparison.Ordinal);
        table[3] = "<b>x</b>" + table[3];
        await Send(page, "exercises.csv", string.Join("\r\n", table), "check");
        var told = await page.Locator(".told li").AllInnerTextsAsync();
        Assert.Contains(told, t => t.StartsWith("row 2 ", StringComparison.Ordinal) && t.Contains("\"hearsay\" is none of", StringComparison.Ordinal));
        Assert.Contains(told, t => t.StartsWith("row 4 (<b>x</b>", StringComparison.Ordinal));
        Assert.Contains($"{told.Count} errors in exercises.csv; nothing was kept", await page.InnerTextAsync(".faults h2"), StringComparison.Ordinal);
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "upload-errors-360");

        await Send(page, "exercises.csv", string.Join("\r\n", (await Table(page)).Take(4)), "check");
        Assert.Contains("none differs from what is in force", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await Send(page, "notes.txt", "hello", "keep");
        Assert.Contains("neither .csv nor .json", await page.InnerTextAsync(".told"), StringComparison.Ordinal);
        await Send(page, "list.json", "{\"exercises\":[{\"id\":\"a\"}]}", "keep");
        Assert.NotEqual(0, await page.Locator(".told li").CountAsync());
    }

    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_draft_is_tried_put_in_force_told_in_a_replay_and_taken_back(bool script)
    {
        var page = await stage.Open(360, script: script);
        var answer = await new Coach(page).AnswerFor("NM-02");
        var first = await page.InnerTextAsync("#pick-1 h2");
        await page.GotoAsync("/versions");
        var was = (await page.GetAttributeAsync("section[aria-labelledby=catalogue] tr.decides a", "href"))!;

        // The first pick loses all it is rated for; an exercise must train something, so it gets something else instead, for each case another, so that each makes a version of its own.
        var id = (string)JsonNode.Parse(await (await page.Context.APIRequest.GetAsync(answer.Replace("/answers/", "/v1/decisions/", StringComparison.Ordinal))).TextAsync())!["top"]!;
        var exercise = JsonNode.Parse(await (await page.Context.APIRequest.GetAsync($"/v1/exercises/{id}")).TextAsync())!;
        foreach (var (_, rating) in exercise["qualities"]!.AsObject())
        {
            (rating!["value"], rating["basis"], rating["source"]) = (1, "common-practice", null);
        }

        exercise["qualities"]![script ? "grip" : "upper-pull"] = new JsonObject { ["value"] = 3, ["basis"] = "common-practice" };
        await page.GotoAsync("/versions/upload");
        await Send(page, "exercises.json", new JsonArray(exercise).ToJsonString(), "keep");
        Assert.Empty(await page.Locator(".told li").AllInnerTextsAsync());
        var draft = new Uri(page.Url).AbsolutePath;
        Assert.StartsWith("Draft", await page.InnerTextAsync(".situation"), StringComparison.Ordinal);
        Assert.Equal([first], (await page.Locator(".change-group summary").EvaluateAllAsync<string[]>("all => all.map(s => s.firstChild.textContent.trim())")));
        var changes = await page.Locator(".change-group li").AllTextContentsAsync();
        Assert.Contains(changes, c => c.StartsWith("Rating for ", StringComparison.Ordinal) && c.EndsWith("to 1.", StringComparison.Ordinal));
        Assert.Contains(changes, c => c.StartsWith("Rating for ", StringComparison.Ordinal) && c.EndsWith(": new, 3, common-practice.", StringComparison.Ordinal));
        Assert.Equal(0, await new Coach(page).Overflow());

        await page.ClickAsync("button:has-text('See what would change')");
        await page.Locator(".line.end").WaitForAsync();
        Assert.Matches("Done: [1-9][0-9]* of [0-9]+ decisions? comes?", await page.Locator("p.step").Last.InnerTextAsync());
        Assert.Equal(1, await page.Locator("p.step:visible").CountAsync());
        Assert.Contains(await page.Locator(".line a").EvaluateAllAsync<string[]>("all => all.map(a => a.getAttribute('href'))"), h => h == answer.Replace("/answers/", "/decisions/", StringComparison.Ordinal));
        await Stage.Picture(page, "impact-360" + (script ? "" : "-no-script"));
        await page.ClickAsync("text=Back to the version");

        await page.ClickAsync("text=Put it in force");
        Assert.Contains("at once and for every later answer", await page.InnerTextAsync("main"), StringComparison.Ordinal);
        await Stage.Picture(page, "publish-360");
        await page.ClickAsync("button:has-text('Put it in force')");
        await page.WaitForURLAsync("**/versions?done=published");
        Assert.Equal(draft, await page.GetAttributeAsync("section[aria-labelledby=catalogue] tr.decides a", "href"));

        await page.GotoAsync(answer.Replace("/answers/", "/decisions/", StringComparison.Ordinal));
        await page.ClickAsync("button:has-text('On its own versions')");
        Assert.Contains("the same, byte for byte", await page.InnerTextAsync(".lead"), StringComparison.Ordinal);
        await page.GoBackAsync();
        await page.ClickAsync("button:has-text('On today')");
        Assert.Contains("differs in", await page.InnerTextAsync(".lead"), StringComparison.Ordinal);
        Assert.Contains(await page.Locator("tbody tr td:last-child").AllInnerTextsAsync(), because => because.StartsWith(first, StringComparison.Ordinal));
        Assert.Equal(0, await new Coach(page).Overflow());
        await Stage.Picture(page, "replay-today-360" + (script ? "" : "-no-script"));

        // Back: the older one in force again, and what was in force cannot be taken away.
        await page.GotoAsync(was + "/publish");
        await page.ClickAsync("button:has-text('Put it in force')");
        await page.WaitForURLAsync("**/versions?done=published");
        Assert.Equal(was, await page.GetAttributeAsync("section[aria-labelledby=catalogue] tr.decides a", "href"));
        await page.GotoAsync(draft + "/discard");
        Assert.Equal("This version stays", await page.InnerTextAsync("h1"));
    }

    [BrowserFact]
    public async Task A_draft_that_was_never_in_force_is_taken_away_once_and_what_was_confirmed_is_what_is_done()
    {
        var page = await stage.Open();
        var table = await Table(page);
        await page.GotoAsync("/versions/upload");
        await Send(page, "exercises.csv", string.Join("\r\n", [table[0], table[1].Replace(" common-practice", " recalled", StringComparison.Ordinal)]), "keep");
        Assert.Empty(await page.Locator(".told li").AllInnerTextsAsync());
        var draft = new Uri(page.Url).AbsolutePath;

        // A page that was open while another version came into force is shown again with what would change now.
        await page.GotoAsync(draft + "/publish");
        await page.EvaluateAsync("document.querySelector('input[name=inForce]').value = 'another'");
        await page.ClickAsync("button:has-text('Put it in force')");
        Assert.Contains("Meanwhile another version", await page.InnerTextAsync(".notice"), StringComparison.Ordinal);
        await page.EvaluateAsync("document.querySelector('input[name=form-token]').value = 'forged'");
        await page.ClickAsync("button:has-text('Put it in force')");
        Assert.Contains("press the button again", await page.InnerTextAsync(".notice"), StringComparison.Ordinal);

        await page.GotoAsync(draft + "/discard");
        await page.ClickAsync("button:has-text('Take it away')");
        await page.WaitForURLAsync("**/versions?done=discarded");
        Assert.Equal(0, await page.Locator($"a[href='{draft}']").CountAsync());
        Assert.Equal(404, (await page.GotoAsync(draft))!.Status);
    }

    /// <summary>A trial that is stopped ends: the server does not go on with it, and what had come stays on the page.</summary>
    [BrowserFact]
    public async Task Long_work_shows_how_far_it_is_and_can_be_stopped()
    {
        var page = await stage.Open();
        var one = """{"athlete":{"eventGroup":"throws"},"phase":"taper"}""";
        for (var batch = 0; batch < 3; batch++)
        {
            var stored = await page.Context.APIRequest.PostAsync("/v1/recommendations/batch", new APIRequestContextOptions { Data = $$"""{"requests":[{{string.Join(',', Enumerable.Repeat(one, 500))}}]}""", Headers = new Dictionary<string, string> { ["Content-Type"] = "application/json" } });
            Assert.True(stored.Ok, await stored.TextAsync());
        }

        await page.GotoAsync("/versions");
        var inForce = (await page.GetAttributeAsync("section[aria-labelledby=catalogue] tr.decides a", "href"))!;
        await page.GotoAsync(inForce + "/impact?last=100000", new PageGotoOptions { WaitUntil = WaitUntilState.Commit });
        await page.Locator("progress:visible").WaitForAsync();
        await page.ClickAsync(".stop-work a");
        await page.Locator(".stopped").WaitForAsync();
        Assert.Matches("^[0-9]+ of [0-9]+ tried", await page.Locator("p.step").Last.InnerTextAsync());
        Assert.Equal(0, await page.Locator(".ended").CountAsync());
        Assert.EndsWith("/impact?last=100000", page.Url, StringComparison.Ordinal);
        await Stage.Picture(page, "impact-stopped-360");
    }

    [BrowserTheory]
    [InlineData("/versions/colour/x")]
    [InlineData("/versions/catalogue/none")]
    [InlineData("/versions/catalogue/none/impact")]
    [InlineData("/versions/rules/none/publish")]
    [InlineData("/versions/catalogue/current/changes/none")]
    [InlineData("/versions/catalogue?from=a")]
    [InlineData("/decisions/none")]
    [InlineData("/decisions/<script>?first=a&second=b")]
    public async Task A_cut_or_foreign_link_gives_a_page_with_the_way_back(string address)
    {
        var page = await stage.Open();
        Assert.Equal(404, (await page.GotoAsync(address))!.Status);
        Assert.Equal("Not found", await page.InnerTextAsync("h1"));
    }

    /// <summary>Rows of the table of exercises.</summary>
    private static async Task<List<string>> Table(IPage page) => [.. (await (await page.Context.APIRequest.GetAsync("/versions/exercises.csv")).TextAsync()).TrimStart('\uFEFF').Split("\r\n")];

    private static async Task Send(IPage page, string name, string text, string how)
    {
        await page.SetInputFilesAsync("input[type=file]", new FilePayload { Name = name, MimeType = "text/plain", Buffer = Encoding.UTF8.GetBytes(text) });
        await page.ClickAsync($"button[value={how}]");
    }
}
