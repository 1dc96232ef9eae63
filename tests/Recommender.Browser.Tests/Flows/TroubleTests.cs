using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>What goes wrong: faults, a restart, two at once, hostile text, foreign links.</summary>
[Collection(OnStage.Name)]
public sealed class TroubleTests(Stage stage)
{
    [BrowserTheory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Faults_stand_beside_their_fields_and_keep_what_was_typed(bool script)
    {
        var page = await stage.Open(360, script: script);
        await page.GotoAsync("/");
        await page.SelectOptionAsync("#f-complaints-0-region", "lower-back");
        await page.FillAsync("#f-weeksToCompetition", "soon");
        await page.FillAsync("#f-complaints-0-note", "after the flight");
        await page.ClickAsync("button.main");
        await page.Locator(".faults").WaitForAsync();
        Assert.Equal(4, await page.Locator(".faults li").CountAsync());
        foreach (var field in new[] { "athlete-event", "phase", "weeksToCompetition", "complaints-0-pain" })
        {
            Assert.Equal("true", await page.GetAttributeAsync("#f-" + field, "aria-invalid"));
            Assert.Equal("fault-" + field, await page.GetAttributeAsync("#f-" + field, "aria-describedby"));
            Assert.True(await page.IsVisibleAsync("#fault-" + field));
        }

        Assert.Equal("soon", await page.InputValueAsync("#f-weeksToCompetition"));
        Assert.Equal("after the flight", await page.InputValueAsync("#f-complaints-0-note"));
        Assert.Equal("alert", await page.GetAttributeAsync(".faults", "role"));
        await Stage.Picture(page, "faults-360" + (script ? "" : "-no-script"));

        await page.SelectOptionAsync("#f-athlete-event", "javelin");
        await page.SelectOptionAsync("#f-phase", "taper");
        await page.FillAsync("#f-weeksToCompetition", "1,5");
        await page.SelectOptionAsync("#f-complaints-0-pain", "2");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
        Assert.Contains("1.5 weeks out", await page.InnerTextAsync(".situation"), StringComparison.Ordinal);
    }

    [BrowserFact]
    public async Task A_page_left_open_over_a_restart_goes_on()
    {
        var page = await stage.Open();
        await page.GotoAsync("/?athlete=NM-04");
        await page.FillAsync("#f-complaints-0-note", "typed before the restart");
        stage.Service.Stop();
        await stage.Service.Start();
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");

        // Even with its keys lost nothing typed is lost: the page says so and one more press is enough.
        await page.GotoAsync("/?athlete=NM-04");
        await page.FillAsync("#f-complaints-0-note", "typed before the keys were lost");
        stage.Service.Stop();
        stage.Service.LoseFormKeys();
        await stage.Service.Start();
        await page.ClickAsync("button.main");
        await page.Locator(".notice").WaitForAsync();
        Assert.Contains("press the button again", await page.InnerTextAsync(".notice"), StringComparison.Ordinal);
        Assert.Equal("typed before the keys were lost", await page.InputValueAsync("#f-complaints-0-note"));
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
    }

    [BrowserFact]
    public async Task Two_at_once_get_each_their_own()
    {
        var pages = await Task.WhenAll(stage.Open(), stage.Open());
        await Task.WhenAll(pages[0].GotoAsync("/?athlete=NM-04"), pages[1].GotoAsync("/?athlete=NM-01"));
        await Task.WhenAll(pages.Select(p => p.ClickAsync("button.main")));
        await Task.WhenAll(pages.Select(p => p.WaitForURLAsync("**/answers/*")));
        Assert.Equal("Solveig Amadi", await pages[0].InnerTextAsync("h1"));
        Assert.Equal("Jorin Adomako", await pages[1].InnerTextAsync("h1"));
    }

    [BrowserFact]
    public async Task Hostile_text_is_shown_as_text()
    {
        const string hostile = "\"><script>document.title='owned'</script><img src=x onerror=\"document.title='owned'\">{{7*7}}";
        var page = await stage.Open();
        await page.GotoAsync("/?athlete=NM-04");
        await page.FillAsync("#f-complaints-0-note", hostile);
        await page.FillAsync("#f-weeksToCompetition", "<b>5</b>");
        await page.ClickAsync("button.main");
        await page.Locator(".faults").WaitForAsync();
        Assert.Equal(hostile, await page.InputValueAsync("#f-complaints-0-note"));
        Assert.Equal(0, await page.Locator(".faults b, .fault b, img").CountAsync());
        await page.FillAsync("#f-weeksToCompetition", "5");
        await page.ClickAsync("button.main");
        await page.WaitForURLAsync("**/answers/*");
        Assert.DoesNotContain("owned", await page.TitleAsync(), StringComparison.Ordinal);

        // What came in with the note comes back with the form, as typed.
        await page.ClickAsync("text=Change the request");
        Assert.Equal(hostile, await page.InputValueAsync("#f-complaints-0-note"));
        Assert.DoesNotContain("owned", await page.TitleAsync(), StringComparison.Ordinal);
    }

    [BrowserTheory]
    [InlineData("/answers/01a214b5-bd39-77c5-bbcd-dfb3e7d3b62f", 404)]
    [InlineData("/answers/<script>", 404)]
    [InlineData("/exercises/unheard-of", 404)]
    [InlineData("/nowhere/at/all", 404)]
    [InlineData("/answers/01a214b5-bd39-77c5-bbcd-dfb3e7d3b62f/print?swap=x", 404)]
    public async Task An_old_or_foreign_link_gives_a_page_with_the_way_back(string address, int status)
    {
        var page = await stage.Open();
        var response = await page.GotoAsync(address);
        Assert.Equal(status, response!.Status);
        Assert.NotEmpty(await page.InnerTextAsync("h1"));
        await page.ClickAsync("main a[href='/']");
        Assert.Equal("/", new Uri(page.Url).AbsolutePath);
    }
}
