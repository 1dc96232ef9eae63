using System.Net;
using System.Text.RegularExpressions;
using Recommender.Answers.Access;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

public sealed partial class SignInTests : IAsyncLifetime
{
    private readonly ApiHost api = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await api.DisposeAsync();

    [Fact]
    public async Task A_key_opens_the_pages_of_its_scopes_until_it_is_ended()
    {
        var key = await api.Key("local", Scopes.Recommend | Scopes.Curate);
        var (status, cookie, to) = await SignIn(key, "/squad?saved=1");
        Assert.Equal((HttpStatusCode.SeeOther, "/squad?saved=1"), (status, to));
        Assert.Matches("; max-age=43200; path=/; samesite=strict; httponly$", cookie);
        Assert.DoesNotContain(key[^64..], cookie);
        var sent = cookie!.Split(';')[0];

        var squad = await Page(sent, "/squad", 200);
        Assert.Contains("href=\"/versions\"", squad);
        Assert.Contains("href=\"/sign-out\"", squad);
        Assert.DoesNotContain("href=\"/decisions\"", squad);
        Assert.Contains("scope audit", await Page(sent, "/decisions", 403));

        await api.Text(null, 401, "GET", "/v1/athletes", null, ("Cookie", sent));
        var admin = await api.Key("local", Scopes.Admin);
        await api.Text(admin, 204, "DELETE", $"/v1/keys/{KeySecret.Read(key)!.Id}");
        await Page(sent, "/squad", 303);
    }

    [Fact]
    public async Task Pages_show_the_organisation_of_the_key_alone()
    {
        var (_, local, _) = await SignIn(await api.Key("local", Scopes.All), null);
        var (_, academy, _) = await SignIn(await api.Key("academy", Scopes.All), null);

        Assert.Contains("NM-04", await Page(local!.Split(';')[0], "/squad", 200));
        Assert.DoesNotContain("NM-04", await Page(academy!.Split(';')[0], "/squad", 200));
        await Page(academy.Split(';')[0], "/athletes/NM-04", 404);
    }

    [Fact]
    public async Task Without_a_sign_in_a_page_leads_to_it_and_a_form_says_so()
    {
        await api.Key("local", Scopes.All);
        using var page = await api.Ask(null, "GET", "/answers/1?painUp=1", null, ("Accept", "text/html"));
        Assert.Equal((303, "/sign-in?to=%2Fanswers%2F1%3FpainUp%3D1"), ((int)page.StatusCode, page.Headers.Location!.ToString()));
        using var form = await api.Ask(null, "POST", "/", null, ("Accept", "text/html"));
        Assert.Equal(401, (int)form.StatusCode);
        Assert.Contains("Nothing was recorded", await form.Content.ReadAsStringAsync());
        using var program = await api.Ask(null, "GET", "/squad/export");
        await ProblemAssert.Is(program, 401, "key-needed");
    }

    [Fact]
    public async Task A_sign_in_leads_nowhere_else()
    {
        var key = await api.Key("local", Scopes.All);
        foreach (var (asked, leads) in new[] { ("/squad", "/squad"), ("//evil.example/", "/"), ("/\\evil.example/", "/"), ("https://evil.example/", "/"), ("/a\\b", "/"), ("", "/"), ("/\u00e9", "/"), ("/\u2028x", "/"), ("/a b", "/"), ("/%C3%A9", "/%C3%A9") })
        {
            Assert.Equal((asked, leads), (asked, (await SignIn(key, asked)).To));
        }
    }

    [Fact]
    public async Task A_wrong_key_a_made_up_cookie_and_a_form_of_another_site_open_nothing()
    {
        await api.Key("local", Scopes.All);
        var (status, cookie, _) = await SignIn(KeySecret.Make().Reveal(), null);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, null), (status, cookie));
        await Page("sign-in=CfDJ8Made-up", "/squad", 303);
        using var foreign = await api.Client.PostAsync("/sign-in", new FormUrlEncodedContent([new("key", await api.Key("local", Scopes.All))]));
        Assert.Equal(400, (int)foreign.StatusCode);
        Assert.DoesNotContain(foreign.Headers, h => h.Key == "Set-Cookie" && h.Value.Any(v => v.StartsWith("sign-in", StringComparison.Ordinal)));
    }

    /// <summary>A cookie opens pages; what programs read takes a key, as the table of permissions has it.</summary>
    [Fact]
    public async Task A_sign_in_opens_no_metrics()
    {
        var key = await api.Key("local", Scopes.All);
        var (_, cookie, _) = await SignIn(key, null);

        await api.Text(null, 401, "GET", "/metrics", null, ("Cookie", cookie!.Split(';')[0]));
        await api.Text(null, 401, "GET", "/metrics", null, ("Accept", "text/html"), ("Cookie", cookie.Split(';')[0]));
        await api.Text(key, 200, "GET", "/metrics");
    }

    [Fact]
    public async Task Off_loopback_the_cookie_travels_by_https_alone()
    {
        var (_, cookie, _) = await SignIn(await api.Key("local", Scopes.All), null, "recommender.club.example");

        Assert.Contains("; secure; samesite=strict; httponly", cookie);
    }

    [Fact]
    public async Task A_sign_in_holds_on_another_program_of_the_same_store()
    {
        var (_, cookie, _) = await SignIn(await api.Key("local", Scopes.All), null);
        await using var other = api.Again();

        using var page = await other.Ask(null, "GET", "/squad", null, ("Accept", "text/html"), ("Cookie", cookie!.Split(';')[0]));

        Assert.Equal(200, (int)page.StatusCode);
    }

    private async Task<string> Page(string cookie, string path, int status) => await api.Text(null, status, "GET", path, null, ("Accept", "text/html"), ("Cookie", cookie));

    private async Task<(HttpStatusCode Status, string? Cookie, string? To)> SignIn(string key, string? to, string host = "localhost")
    {
        using var shown = await api.Ask(null, "GET", "/sign-in" + (to is null ? "" : $"?to={Uri.EscapeDataString(to)}"), null, ("Accept", "text/html"), ("Host", host));
        var page = await shown.Content.ReadAsStringAsync();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/sign-in")
        {
            Content = new FormUrlEncodedContent([new("key", key), new("to", WebUtility.HtmlDecode(To().Match(page).Groups[1].Value)), new("form-token", Token().Match(page).Groups[1].Value)]),
        };
        request.Headers.Host = host;
        request.Headers.Accept.ParseAdd("text/html");
        request.Headers.Add("Cookie", shown.Headers.GetValues("Set-Cookie").Select(c => c.Split(';')[0]));
        using var response = await api.Client.SendAsync(request);
        var cookie = response.Headers.TryGetValues("Set-Cookie", out var set) ? set.FirstOrDefault(c => c.StartsWith("sign-in=", StringComparison.Ordinal)) : null;
        return (response.StatusCode, cookie, response.Headers.Location?.ToString());
    }

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"to\" value=\"([^\"]*)\"")]
    private static partial Regex To();
}
