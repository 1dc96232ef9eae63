using Microsoft.Playwright;

namespace Recommender.Browser.Tests.Hosting;

/// <summary>One browser and one service for many tests.</summary>
public sealed class Stage : IAsyncLifetime
{
    private IPlaywright? playwright;
    private IBrowser? browser;
    private string? answer;
    private string? session;
    private string? sheet;

    /// <summary>The service.</summary>
    public Service Service { get; } = new();

    /// <summary>Where a screenshot of each page is kept as an artefact of the run, never in the repository.</summary>
    public static string Pictures { get; } = Environment.GetEnvironmentVariable("RECOMMENDER_PICTURES") ?? Path.Combine(AppContext.BaseDirectory, "pictures");

    public async Task InitializeAsync()
    {
        Directory.CreateDirectory(Pictures);
        var path = await Chromium.Have();
        await Service.Start();
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = path,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    public async Task DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.DisposeAsync();
        }

        playwright?.Dispose();
        Service.Dispose();
    }

    /// <summary>A new page of a new visitor.</summary>
    /// <param name="width">Width, CSS pixels.</param>
    /// <param name="scheme">Light or dark.</param>
    /// <param name="script">Whether script runs.</param>
    public async Task<IPage> Open(int width = 360, ColorScheme scheme = ColorScheme.Light, bool script = true)
    {
        var context = await browser!.NewContextAsync(new BrowserNewContextOptions
        {
            BaseURL = Service.Address.ToString(),
            ViewportSize = new ViewportSize { Width = width, Height = 780 },
            ColorScheme = scheme,
            JavaScriptEnabled = script,
            HasTouch = width < 500,
        });
        // Other test projects run beside on the same few cores.
        context.SetDefaultTimeout(60_000);
        return await context.NewPageAsync();
    }

    /// <summary>The address of an answer that looking does not change; asked for once.</summary>
    public async Task<string> Answer() => answer ??= await AskOnce("/?athlete=NM-04");

    /// <summary>The address of a session; asked for once.</summary>
    public async Task<string> Session() => session ??= await AskOnce("/sessions?athlete=NM-04");

    /// <summary>The address under which that answer stands on record.</summary>
    public async Task<string> Decision() => (await Answer()).Replace("/answers/", "/decisions/", StringComparison.Ordinal);

    /// <summary>The address of a group's sheet; asked for once.</summary>
    public async Task<string> Sheet()
    {
        if (sheet is null)
        {
            var page = await Open();
            await page.GotoAsync("/squad");
            foreach (var reference in new[] { "NM-01", "NM-04", "NM-07", "NM-09" })
            {
                await page.CheckAsync($"input[value='{reference}']");
            }

            await page.ClickAsync("button.main");
            await page.WaitForURLAsync("**/squad/sheet?*");
            sheet = new Uri(page.Url).PathAndQuery;
            await page.Context.CloseAsync();
        }

        return sheet;
    }

    /// <summary>An address with ANSWER, DECISION, SHEET and SESSION in place of those of an answer and a session.</summary>
    public async Task<string> Resolve(string address) =>
        address.StartsWith("ANSWER", StringComparison.Ordinal) ? await Answer() + address["ANSWER".Length..]
        : address.StartsWith("DECISION", StringComparison.Ordinal) ? await Decision() + address["DECISION".Length..]
        : address.StartsWith("SHEET", StringComparison.Ordinal) ? await Sheet()
        : address.StartsWith("SESSION", StringComparison.Ordinal) ? await Session() + address["SESSION".Length..]
        : address;

    private async Task<string> AskOnce(string form)
    {
        var page = await Open();
        await page.GotoAsync(form);
        await new Coach(page).Ask();
        var path = new Uri(page.Url).AbsolutePath;
        await page.Context.CloseAsync();
        return path;
    }

    /// <summary>Keeps a picture of the page's upper part; a page may be many screens long.</summary>
    public static Task Picture(IPage page, string name) => page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(Pictures, name + ".png"), FullPage = true, Clip = new Clip { X = 0, Y = 0, Width = page.ViewportSize!.Width, Height = 2400 } });
}

/// <summary>Tests that share the stage; one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class OnStage : ICollectionFixture<Stage>
{
    public const string Name = "stage";
}
