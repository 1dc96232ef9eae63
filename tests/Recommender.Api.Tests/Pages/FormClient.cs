using System.Net;
using System.Text.RegularExpressions;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>Sends forms as a browser does: with the cookie and the token of the page that they stand on.</summary>
/// <param name="host">The service.</param>
public sealed partial class FormClient(ApiHost host)
{
    /// <summary>A page that must be there.</summary>
    public async Task<string> Get(string path)
    {
        using var response = await host.Client.GetAsync(path);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.OK, $"{path}: {(int)response.StatusCode}");
        return text;
    }

    /// <summary>Posts a form that stands on a page.</summary>
    /// <param name="path">Where to.</param>
    /// <param name="page">The page that holds the form.</param>
    /// <param name="fields">Its fields.</param>
    /// <returns>Status, where it leads, and the body.</returns>
    public async Task<(HttpStatusCode Status, string? Location, string Body)> Post(string path, string page, IEnumerable<(string Name, string Value)> fields)
    {
        using var shown = await host.Client.GetAsync(page);
        var token = Token().Match(await shown.Content.ReadAsStringAsync()).Groups[1].Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new FormUrlEncodedContent([.. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)), new("form-token", token)]) };
        if (shown.Headers.TryGetValues("Set-Cookie", out var cookies))
        {
            request.Headers.Add("Cookie", cookies.Select(c => c.Split(';')[0]));
        }

        using var response = await host.Client.SendAsync(request);
        return (response.StatusCode, response.Headers.Location?.ToString(), await response.Content.ReadAsStringAsync());
    }

    [GeneratedRegex("name=\"form-token\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}

/// <summary>A clock that a test sets.</summary>
public sealed class SetClock(DateTimeOffset now) : TimeProvider
{
    /// <summary>Now.</summary>
    public DateTimeOffset Now { get; set; } = now;

    /// <summary>Where it hangs.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Utc;

    /// <inheritdoc/>
    public override TimeZoneInfo LocalTimeZone => Zone;

    /// <inheritdoc/>
    public override DateTimeOffset GetUtcNow() => Now;
}
