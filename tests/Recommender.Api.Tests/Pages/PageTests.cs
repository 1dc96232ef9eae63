using System.Net;
using System.Text.RegularExpressions;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>What the pages promise over HTTP: headers, no decision by a GET, no foreign form, pages for people and problems for programs.</summary>
public sealed partial class PageTests(ApiHost host) : IClassFixture<ApiHost>
{
    [Fact]
    public async Task A_page_brings_a_strict_policy_and_is_kept_by_nobody_between()
    {
        using var response = await host.Client.GetAsync("/");
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(response.Headers.GetValues("X-Content-Type-Options")));
        Assert.True(response.Headers.CacheControl!.Private);
        var page = await response.Content.ReadAsStringAsync();
        Assert.DoesNotContain("style=\"", page, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"<script(?! type=""module"" src=""/assets/)", page);
        Assert.DoesNotMatch(@"\son\w+=", page);
        Assert.DoesNotContain("://", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_page_loads_may_be_kept_for_good()
    {
        var page = await host.Client.GetStringAsync("/");
        foreach (Match file in Asset().Matches(page))
        {
            using var response = await host.Client.GetAsync(file.Value);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
            Assert.Contains("immutable", response.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        }

        Assert.Equal(3, Asset().Count(page));
    }

    [Fact]
    public async Task A_get_never_writes_a_decision()
    {
        var before = host.DecisionCount();
        var answer = await Ask(("athlete.event", "long-jump"), ("phase", "competition"), ("complaints.0.region", "patellar-tendon"), ("complaints.0.pain", "3"));
        Assert.Equal(before + 1, host.DecisionCount());
        string[] looks = ["", "/print", "/swap/1", "/swap/1?reason=pain", "?painUp=2", "?place=hotel&weeksOn=2", "?without=rack"];
        foreach (var look in looks)
        {
            using var response = await host.Client.GetAsync(answer + look);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        }

        using var again = await host.Client.GetAsync("/?decision=" + answer["/answers/".Length..]);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Equal(before + 1, host.DecisionCount());
    }

    [Fact]
    public async Task The_page_and_the_call_give_the_same_picks()
    {
        var address = await Ask(("athlete.event", "javelin"), ("phase", "taper"), ("setting.place", "hotel"));
        var byCall = await host.Answer("/v1/recommendations", """{"athlete":{"event":"javelin","eventGroup":"throws"},"phase":"taper","setting":{"place":"hotel"}}""");
        var page = WebUtility.HtmlDecode(await host.Client.GetStringAsync(address));
        var names = byCall["picks"]!.AsArray().Select(p => (string)p!["exercise"]!["name"]!).ToList();
        Assert.NotEmpty(names);
        Assert.Equal(names, PickName().Matches(page).Select(m => m.Groups[1].Value));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("made-up")]
    public async Task A_form_from_elsewhere_records_nothing_and_keeps_what_was_typed(string? token)
    {
        var before = host.DecisionCount();
        Dictionary<string, string> fields = new() { ["athlete.event"] = "javelin", ["phase"] = "taper", ["setting.minutes"] = "17" };
        if (token is not null)
        {
            fields["form-token"] = token;
        }

        using var response = await host.Client.PostAsync("/", new FormUrlEncodedContent(fields));
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains("value=\"17\"", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(before, host.DecisionCount());
    }

    [Theory]
    [InlineData("/answers/none")]
    [InlineData("/nowhere")]
    public async Task A_browser_gets_a_page_for_what_is_not_there(string path)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Accept.ParseAdd("text/html,application/xhtml+xml");
        using var response = await host.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
        Assert.Equal("text/html", response.Content.Headers.ContentType!.MediaType);
        Assert.Contains("default-src 'none'", Assert.Single(response.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/v1/nowhere", "text/html")]
    [InlineData("/nowhere", "application/json")]
    public async Task A_program_gets_a_problem(string path, string accept)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Accept.ParseAdd(accept);
        using var response = await host.Client.SendAsync(request);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType!.MediaType);
    }

    [Theory]
    [InlineData("/answers/x/swap/1")]
    [InlineData("/answers/x/record")]
    public async Task Posting_to_what_is_not_there_is_a_page_too(string path)
    {
        using var response = await host.Client.PostAsync(path, new FormUrlEncodedContent([]));
        Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
    }

    [Fact]
    public async Task A_form_that_is_too_large_is_refused_readably()
    {
        using var response = await host.Client.PostAsync("/", new FormUrlEncodedContent([new("complaints.0.note", new string('x', 300_000))]));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, response.StatusCode);
        Assert.Equal("text/html", response.Content.Headers.ContentType!.MediaType);
    }

    /// <summary>Sends the form as a browser does and gives the address of the answer.</summary>
    private async Task<string> Ask(params (string Name, string Value)[] fields)
    {
        using var page = await host.Client.GetAsync("/");
        var cookie = Assert.Single(page.Headers.GetValues("Set-Cookie")).Split(';')[0];
        var token = Token().Match(await page.Content.ReadAsStringAsync()).Groups[1].Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, "/") { Content = new FormUrlEncodedContent([.. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)), new("form-token", token)]) };
        request.Headers.Add("Cookie", cookie);
        using var response = await host.Client.SendAsync(request);
        Assert.Equal(HttpStatusCode.SeeOther, response.StatusCode);
        return response.Headers.Location!.ToString();
    }

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("/assets/[\\w.]+")]
    private static partial Regex Asset();

    [GeneratedRegex("<h2 id=\"name-\\d+\">([^<]+)</h2>")]
    private static partial Regex PickName();
}
