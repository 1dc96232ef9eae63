using Microsoft.Playwright;
using Recommender.Browser.Tests.Hosting;

namespace Recommender.Browser.Tests.Flows;

/// <summary>What holds on every page: axe's rules, no sideways scrolling, a strict policy, little to load, nothing that jumps.</summary>
/// <param name="stage">A stage of its own, so that looking goes on beside the flows.</param>
public sealed class EveryPageTests(Stage stage) : IClassFixture<Stage>
{
    /// <summary>Name of each page; ANSWER stands for the address of an answer.</summary>
    public static TheoryData<string, string> Pages => new()
    {
        { "ask", "/" },
        { "ask-filled", "/?athlete=NM-04" },
        { "answer", "ANSWER" },
        { "swap", "ANSWER/swap/2" },
        { "what-if", "ANSWER?painUp=2&place=hotel" },
        { "print", "ANSWER/print" },
        { "session-ask", "/sessions?athlete=NM-04" },
        { "session", "SESSION" },
        { "session-print", "SESSION/print" },
        { "squad", "/squad" },
        { "squad-import", "/squad/import" },
        { "group-sheet", "SHEET" },
        { "season", "/season" },
        { "season-filled", "/season?athlete=NM-04" },
        { "athlete", "/athletes/NM-04" },
        { "athlete-edit", "/athletes/NM-04/edit" },
        { "exercises", "/exercises" },
        { "exercise", "/exercises/back-squat" },
        { "sources", "/sources" },
        { "record", "/decisions?kind=recommendation" },
        { "decision", "DECISION" },
        { "decision-compared", "DECISION?first=depth-jump&second=front-squat" },
        { "decision-changed", "DECISION?exercise=front-squat" },
        { "decision-firm", "DECISION?firm=1" },
        { "decision-fault", "DECISION?exercise=nothing" },
        { "versions", "/versions" },
        { "version", "/versions/catalogue/current" },
        { "changes", "/versions/rules/current/changes/current" },
        { "upload", "/versions/upload" },
        { "impact", "/versions/rules/current/impact?last=20" },
        { "not-found", "/answers/none" },
    };

    [BrowserTheory]
    [MemberData(nameof(Pages))]
    public async Task It_is_accessible_and_fits_in_both_schemes_at_any_width_and_size_of_text(string name, string address)
    {
        var page = await stage.Open(360);
        var refused = new List<string>();
        page.Console += (_, m) => refused.AddRange(m.Text.Contains("Content Security Policy", StringComparison.Ordinal) ? [m.Text] : Array.Empty<string>());
        var foreign = new List<string>();
        page.Request += (_, r) => foreign.AddRange(r.Url.StartsWith(stage.Service.Address.ToString(), StringComparison.Ordinal) ? [] : [r.Url]);
        await page.GotoAsync(await stage.Resolve(address));
        await Fits(page, "at 360 px");
        await Stage.Picture(page, name + "-360-light");

        // With everything opened, so that what is folded is looked at too.
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => { d.removeAttribute('name'); d.open = true; })");
        await Fits(page, "at 360 px, opened");
        await Axe.FindsNothing(page, "light");
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = ColorScheme.Dark });

        await Axe.FindsNothing(page, "dark", colourOnly: true);
        await page.SetViewportSizeAsync(1600, 900);
        await Fits(page, "at 1600 px");
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = false)");
        await Stage.Picture(page, name + "-1600-dark");
        await page.SetViewportSizeAsync(720, 900);
        await page.EvaluateAsync("document.documentElement.style.fontSize = '200%'");
        await Fits(page, "with text of twice the size");
        Assert.Empty(refused);
        Assert.Empty(foreign);
        await page.Context.CloseAsync();
    }

    [BrowserFact]
    public async Task The_first_page_is_small_and_nothing_jumps()
    {
        var page = await stage.Open();
        var session = await page.Context.NewCDPSessionAsync(page);
        await session.SendAsync("Network.enable");
        var bytes = 0.0;
        session.Event("Network.loadingFinished").OnEvent += (_, e) => bytes += e!.Value.GetProperty("encodedDataLength").GetDouble();
        await page.GotoAsync("/", new PageGotoOptions { WaitUntil = WaitUntilState.NetworkIdle });
        Assert.InRange(bytes, 2_000, 60_000);

        await new Coach(page).AnswerFor("NM-04");
        var shift = await page.EvaluateAsync<double>("new Promise(done => { let sum = 0; new PerformanceObserver(l => l.getEntries().forEach(e => sum += e.value)).observe({ type: 'layout-shift', buffered: true }); setTimeout(() => done(sum), 100); })");
        Assert.Equal(0, shift);
    }

    [BrowserFact]
    public async Task Script_that_stands_in_a_page_does_not_run()
    {
        var page = await stage.Open();
        await page.GotoAsync("/");
        await page.EvaluateAsync("() => { const s = document.createElement('script'); s.textContent = \"document.title = 'ran'\"; document.body.append(s); const a = document.createElement('a'); a.id = 'bad'; a.setAttribute('onclick', \"document.title = 'ran'\"); document.body.append(a); a.click(); }");
        Assert.NotEqual("ran", await page.TitleAsync());
    }

    private static async Task Fits(IPage page, string how)
    {
        var over = await new Coach(page).Overflow();
        Assert.True(over == 0, $"{over} px wider than the screen {how}.");
    }
}
