using Microsoft.Playwright;

namespace Recommender.Browser.Tests.Hosting;

/// <summary>What a coach does on the pages, told once; each step counts its taps.</summary>
/// <param name="page">The page in hand.</param>
public sealed class Coach(IPage page)
{
    /// <summary>Taps so far; choosing from a list is two: opening it and the entry.</summary>
    public int Taps { get; private set; }

    /// <summary>Fills the form from a saved athlete. Without script the button is there to be pressed.</summary>
    public async Task ChooseAthlete(string reference, bool script = true)
    {
        await page.GotoAsync("/");
        await Choose("#saved", reference);
        if (!script)
        {
            await Tap("form.saved button");
        }

        await page.WaitForURLAsync($"**/?athlete={reference}");
    }

    /// <summary>Chooses from a list.</summary>
    public async Task Choose(string field, string value)
    {
        await page.SelectOptionAsync(field, value);
        Taps += 2;
    }

    /// <summary>Taps.</summary>
    public async Task Tap(string what)
    {
        await page.ClickAsync(what);
        Taps++;
    }

    /// <summary>Asks, and waits for the answer.</summary>
    public async Task Ask()
    {
        await Tap("button.main");
        await page.WaitForURLAsync(u => u.Contains("/answers/", StringComparison.Ordinal) || u.Contains("/sessions/", StringComparison.Ordinal));
    }

    /// <summary>An answer for a saved athlete, its address.</summary>
    public async Task<string> AnswerFor(string reference)
    {
        await page.GotoAsync($"/?athlete={reference}");
        await Ask();
        return new Uri(page.Url).AbsolutePath;
    }

    /// <summary>Whether the page is wider than the screen.</summary>
    public async Task<int> Overflow() => await page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");
}
