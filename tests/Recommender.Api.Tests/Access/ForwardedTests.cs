using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

/// <summary>What a proxy says of who asks is taken from one that is known and from nobody else. HSTS: RFC 6797, 7.2 (never over plain HTTP).</summary>
public sealed class ForwardedTests
{
    private static readonly IPAddress Proxy = IPAddress.Parse("10.1.0.7");

    [Fact]
    public async Task A_known_proxy_says_whether_it_was_https()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Proxies:Known"] = "10.1.0.0/24" } };

        Assert.Equal("max-age=31536000", (string?)(await Ask(api, Proxy, "https", "203.0.113.9")).Headers.StrictTransportSecurity);
        Assert.Null((string?)(await Ask(api, Proxy, "http", "203.0.113.9")).Headers.StrictTransportSecurity);
        Assert.Null((string?)(await Ask(api, IPAddress.Parse("10.2.0.7"), "https", "203.0.113.9")).Headers.StrictTransportSecurity);
    }

    /// <summary>A proxy on this machine that names the service by its loopback address would else open it to everybody.</summary>
    [Theory]
    [InlineData("127.0.0.1", "127.0.0.1", "203.0.113.9", 401)]
    [InlineData("127.0.0.1", "127.0.0.1", "127.0.0.1", 401)]
    [InlineData("127.0.0.1", "192.0.2.1", "203.0.113.9", 401)]
    [InlineData("192.0.2.1", "192.0.2.1", null, 401)]
    [InlineData("127.0.0.1", "192.0.2.1", null, 200)]
    public async Task Open_use_is_not_for_who_comes_through_a_proxy_known_or_not(string from, string known, string? forwardedFor, int status)
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Proxies:Known"] = known } };

        Assert.Equal(status, (await Ask(api, IPAddress.Parse(from), null, forwardedFor)).StatusCode);
    }

    [Theory]
    [InlineData("http://0.0.0.0:5221")]
    [InlineData("http://127.0.0.1:5080")]
    public async Task Each_address_behind_a_known_proxy_has_a_rate_of_its_own_and_none_can_take_that_of_another(string urls)
    {
        await using var api = new ApiHost
        {
            Settings = new Dictionary<string, string> { ["Urls"] = urls, ["Proxies:Known"] = "10.1.0.7", ["Limits:WithoutKeyPerSecond"] = "1", ["Limits:WithoutKeyBurst"] = "2" },
        };
        await ReachTests.Command(api.Folder, "create", "--organisation", "club", "--scopes", "recommend");

        Assert.True(await Many("203.0.113.9"));
        Assert.Equal(401, (await Ask(api, Proxy, "https", "203.0.113.10")).StatusCode);
        // Whatever it sends of itself stands to the left of what the proxy adds.
        Assert.True(await Many("198.51.100.1, 203.0.113.9"));
        Assert.True(await Many(null));

        async Task<bool> Many(string? forwardedFor)
        {
            for (var i = 0; i < 20; i++)
            {
                if ((await Ask(api, Proxy, "https", forwardedFor)).StatusCode == 429)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>RFC 9112, 3.2: a request without a host is none of a browser; over HTTP/1.0 it may still come.</summary>
    [Fact]
    public async Task Open_use_is_not_for_who_names_no_host()
    {
        await using var api = new ApiHost();

        Assert.Equal(200, (await Ask(api, IPAddress.Loopback, null, null)).StatusCode);
        Assert.Equal(401, (await Ask(api, IPAddress.Loopback, null, null, "")).StatusCode);
    }

    [Fact]
    public async Task The_proxy_that_comes_with_it_says_who_asks_and_is_known_by_its_network()
    {
        var compose = await File.ReadAllTextAsync(Repository.File(".deploy", "compose.yaml"));
        var conf = await File.ReadAllTextAsync(Repository.File(".deploy", "proxy.conf"));

        var known = Regex.Match(compose, "Proxies__Known: ([0-9./]+)").Groups[1].Value;
        Assert.Equal(known, Regex.Match(compose, "subnet: ([0-9./]+)").Groups[1].Value);
        Assert.True(IPNetwork.TryParse(known, out _), known);
        Assert.Matches("proxy_set_header X-Forwarded-For \\$remote_addr;", conf);
        Assert.Matches("proxy_set_header X-Forwarded-Proto \\$scheme;", conf);
    }

    private static async Task<HttpResponse> Ask(ApiHost api, IPAddress from, string? scheme, string? forwardedFor, string host = "127.0.0.1:5080")
    {
        var context = await api.Server.SendAsync(sent =>
        {
            sent.Connection.RemoteIpAddress = from;
            sent.Request.Method = "GET";
            sent.Request.Path = "/v1/vocabulary";
            sent.Request.Host = new HostString(host);
            if (scheme is not null)
            {
                sent.Request.Headers["X-Forwarded-Proto"] = scheme;
            }

            if (forwardedFor is not null)
            {
                sent.Request.Headers["X-Forwarded-For"] = forwardedFor;
            }
        });
        return context.Response;
    }
}
