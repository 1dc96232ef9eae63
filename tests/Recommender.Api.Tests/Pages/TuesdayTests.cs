using System.Diagnostics;
using System.Net;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Recommender.Api.Tests.Hosting;
using Xunit.Abstractions;

namespace Recommender.Api.Tests.Pages;

/// <summary>
/// A Tuesday: twenty invented athletes out of a coach's own spreadsheet, two of them sore, one back from four weeks off, competition on Saturday. Imported, reviewed, made into a sheet and
/// traded, as last Tuesday; then every change since is looked up by athlete.
/// </summary>
public sealed partial class TuesdayTests(ITestOutputHelper output) : IDisposable
{
    private static readonly DateTimeOffset LastTuesday = new(2026, 11, 17, 7, 0, 0, TimeSpan.Zero);
    private static readonly string[] Members = ["sets", "amount", "intensity", "loadKg", "restSeconds", "tempo"];
    private readonly SetClock clock = new(LastTuesday);
    private ApiHost? running;

    private ApiHost Host => running ??= new ApiHost { Replace = services => services.RemoveAll<TimeProvider>().AddSingleton<TimeProvider>(clock) };

    public void Dispose() => running?.Dispose();

    [Fact]
    public async Task Twenty_athletes_are_imported_reviewed_and_printed_and_every_change_has_a_reason()
    {
        var forms = new FormClient(Host);
        await Import(forms, "tuesday-before.csv", expectedNew: 20);
        var before = await Sheet(forms);
        clock.Now = LastTuesday.AddDays(7);

        var watch = Stopwatch.StartNew();
        var preview = await Import(forms, "tuesday.csv", expectedNew: 0);
        Assert.Contains("Pain, 0 to 10: 3 → 5", preview, StringComparison.Ordinal);
        Assert.Contains("Weeks off training: 4", preview, StringComparison.Ordinal);
        Assert.Contains("Phase: Competition (in-season) → Taper (peaking)", preview, StringComparison.Ordinal);
        var sheet = await Sheet(forms);
        var page = WebUtility.HtmlDecode(await forms.Get(sheet));
        Assert.Equal(20, Regex.Count(page, "<section class=\"athlete\""));
        var trades = Regex.Matches(page, "name=\"trade\" value=\"([^\"]+)\"").Select(m => ("trade", m.Groups[1].Value)).ToList();
        var traded = sheet;
        if (trades.Count > 0)
        {
            var (status, location, _) = await forms.Post("/squad/sheet/trade" + sheet["/squad/sheet".Length..], sheet, trades);
            Assert.Equal(HttpStatusCode.SeeOther, status);
            traded = location!;
            Assert.Equal(trades.Count, Regex.Count(await forms.Get(traded), "shared, instead of"));
        }

        var told = 0;
        for (var i = 1; i <= 20; i++)
        {
            var reference = $"TU-{i:00}";
            var athlete = WebUtility.HtmlDecode(await forms.Get("/athletes/" + reference));
            var lines = ChangeLine().Matches(athlete).Select(m => m.Groups[1].Value.Trim()).ToList();
            var changes = lines.Sum(line => Regex.Count(line, "<strong>"));
            Assert.Equal(Changed(await Picks(before, i - 1), await Picks(sheet, i - 1)), changes);
            Assert.All(lines, line => Assert.DoesNotContain("no reason is on record", line, StringComparison.Ordinal));
            Assert.All(lines, line => Assert.Matches("</strong>: .{10,}", line));
            told += changes;
        }

        output.WriteLine($"{watch.Elapsed.TotalSeconds:0.0} s of server time for the second Tuesday; {trades.Count} trades; {told} changes since last week, each with a reason.");
        Assert.True(told > 20);
    }

    /// <summary>Previews and saves; gives the preview.</summary>
    private static async Task<string> Import(FormClient forms, string file, int expectedNew)
    {
        var text = await File.ReadAllTextAsync(Repository.File("data", "demo", file));
        var (status, _, preview) = await forms.Post("/squad/import", "/squad/import", [("text", text)]);
        Assert.Equal(HttpStatusCode.OK, status);
        preview = WebUtility.HtmlDecode(preview);
        Assert.DoesNotContain("class=\"fault\"", preview, StringComparison.Ordinal);
        Assert.Equal(expectedNew, Regex.Count(preview, "<span>new: "));
        var columns = Regex.Matches(preview, "<select name=\"column\">(.*?)</select>", RegexOptions.Singleline).Select(m => ("column", Regex.Match(m.Value, "value=\"([^\"]*)\" selected").Groups[1].Value));
        var (saved, location, _) = await forms.Post("/squad/import/save", "/squad/import", [("text", text), .. columns]);
        Assert.Equal(HttpStatusCode.SeeOther, saved);
        Assert.Equal("/squad?saved=20", location);
        return preview;
    }

    private static async Task<string> Sheet(FormClient forms)
    {
        var (status, location, _) = await forms.Post("/squad/sheet", "/squad", Enumerable.Range(1, 20).Select(i => ("ref", $"TU-{i:00}")));
        Assert.Equal(HttpStatusCode.SeeOther, status);
        Assert.DoesNotContain("lacking", location, StringComparison.Ordinal);
        return location!;
    }

    /// <summary>An athlete's picks as they are on record.</summary>
    private async Task<JsonArray> Picks(string sheet, int athlete)
    {
        var id = Regex.Match(sheet, "d=([^&]+)").Groups[1].Value.Split(',')[athlete];
        return (await Host.Get("/v1/decisions/" + id))["answer"]!["picks"]!.AsArray();
    }

    /// <summary>How many picks differ between two weeks: gone, new, or with other work, intensity, load, rest or tempo.</summary>
    private static int Changed(JsonArray before, JsonArray now)
    {
        var was = before.ToDictionary(p => (string)p!["exercise"]!["id"]!, p => p!["dose"]);
        var has = now.ToDictionary(p => (string)p!["exercise"]!["id"]!, p => p!["dose"]);
        return was.Keys.Except(has.Keys).Count() + has.Keys.Except(was.Keys).Count() + was.Keys.Intersect(has.Keys).Count(e => Work(was[e]) != Work(has[e]));
    }

    private static string Work(JsonNode? dose) => dose is null ? "" : string.Join('|', Members.Select(m => dose[m]?.ToJsonString()))
        + (dose["sides"] is { } sides ? Work(sides["left"]) + Work(sides["right"]) : "");

    [GeneratedRegex("<li>((?:(?:; )?<strong>[^<]*</strong>)+: [^<]*)</li>")]
    private static partial Regex ChangeLine();
}
