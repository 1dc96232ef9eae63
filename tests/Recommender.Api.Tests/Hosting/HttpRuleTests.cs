using System.Net.Sockets;
using System.Text;
using Microsoft.Net.Http.Headers;
using Recommender.Api.Hosting;
using Recommender.Testing;

namespace Recommender.Api.Tests.Hosting;

/// <summary>RFC 9110 on the built program over a real connection: methods, negotiation, and the headers of every answer.</summary>
public sealed class HttpRuleTests
{
    [Fact]
    public async Task Methods_negotiation_and_headers_are_as_the_standard_has_them()
    {
        using var server = await ServiceProcess.Start();
        var address = server.Address;
        using var client = new HttpClient { BaseAddress = address };

        // 9.3.2: the header fields that GET would have had, and no content.
        foreach (var path in new[] { "/v1/vocabulary", "/health/live", "/v1/exercises/back-squat", "/v1/decisions", "/nothing", "/" })
        {
            using var get = await client.GetAsync(path);
            var raw = await Raw(address, $"HEAD {path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
            Assert.StartsWith($"HTTP/1.1 {(int)get.StatusCode} ", raw);
            Assert.EndsWith("\r\n\r\n", raw);
            Assert.Equal(1, raw.Split("\r\n\r\n").Count(part => part.Length > 0));
            Assert.Contains($"Content-Type: {get.Content.Headers.ContentType!.MediaType}", raw);
            if (get.Content.Headers.ContentLength is { } length && raw.Contains("Content-Length", StringComparison.Ordinal))
            {
                Assert.Contains($"Content-Length: {length}\r\n", raw);
            }
        }

        // 9.3.7 and 15.5.6.
        using var options = await client.SendAsync(new HttpRequestMessage(HttpMethod.Options, "/v1/athletes/NM-04"));
        Assert.Equal(204, (int)options.StatusCode);
        Assert.Equal(["DELETE", "GET", "HEAD", "OPTIONS", "PUT"], options.Content.Headers.Allow.Order(StringComparer.Ordinal));
        using var wrong = await client.DeleteAsync("/v1/recommendations");
        await ProblemAssert.Is(wrong, 405, "method-not-allowed");
        Assert.Equal(["OPTIONS", "POST"], wrong.Content.Headers.Allow.Order(StringComparer.Ordinal));

        // 12.5.1 and 15.5.7.
        foreach (var (accept, status) in new[] { ("application/xml", 406), ("application/json;q=0", 406), ("text/*", 406), ("application/*", 200), ("application/xml, */*;q=0.1", 200), ("application/json; charset=utf-8", 200) })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/vocabulary");
            request.Headers.TryAddWithoutValidation("Accept", accept);
            using var response = await client.SendAsync(request);
            Assert.True((int)response.StatusCode == status, $"Accept: {accept} gave {(int)response.StatusCode}");
        }

        foreach (var (path, csp) in new[] { ("/v1/vocabulary", "default-src 'none'"), ("/v1/nothing", "default-src 'none'"), ("/", "style-src 'self'"), ("/openapi/v1.json", "default-src 'none'"), ("/docs/index.html", "script-src 'self';"), ("/health/live", "default-src 'none'") })
        {
            using var response = await client.GetAsync(path);
            Assert.Equal("nosniff", response.Headers.GetValues("X-Content-Type-Options").Single());
            Assert.Contains("frame-ancestors 'none'", response.Headers.GetValues("Content-Security-Policy").Single());
            Assert.Contains(csp, response.Headers.GetValues("Content-Security-Policy").Single());
            Assert.NotEmpty(response.Headers.GetValues("Referrer-Policy"));
            Assert.False(response.Headers.Contains("Server"));
        }

        using var personal = await client.GetAsync("/v1/athletes");
        Assert.True(personal.Headers.CacheControl!.NoStore);

        // Limits of what is read before any call looks at it.
        Assert.StartsWith("HTTP/1.1 431 ", await Raw(address, $"GET /v1/vocabulary HTTP/1.1\r\nHost: localhost\r\nX-Long: {new string('x', 20_000)}\r\n\r\n"));
        Assert.StartsWith("HTTP/1.1 431 ", await Raw(address, $"GET /v1/vocabulary HTTP/1.1\r\nHost: localhost\r\n{string.Concat(Enumerable.Range(0, 80).Select(i => $"X-{i}: 1\r\n"))}\r\n"));
        Assert.StartsWith("HTTP/1.1 414 ", await Raw(address, $"GET /v1/exercises?q={new string('x', 10_000)} HTTP/1.1\r\nHost: localhost\r\n\r\n"));
        Assert.StartsWith("HTTP/1.1 400 ", await Raw(address, "GET /v1/vocabulary HTTP/1.1\r\n\r\n"));
    }

    // RFC 9110, section 12.5.1: the most specific range that applies has precedence; its own example.
    [Theory]
    [InlineData("text/*;q=0.3, text/plain;q=0.7, text/plain;format=flowed, text/plain;format=fixed;q=0.4, */*;q=0.5", "text/html", true)]
    [InlineData("text/*;q=0, text/html", "text/html", true)]
    [InlineData("text/*;q=0, text/html", "text/plain", false)]
    [InlineData("*/*;q=0, application/json;q=0.001", "application/json", true)]
    [InlineData("APPLICATION/JSON", "application/json", true)]
    [InlineData("application/problem+json", "application/json", false)]
    public void The_most_exact_range_decides(string accept, string type, bool taken) => Assert.Equal(taken, Acceptable.Takes(MediaTypeHeaderValue.ParseList([accept]), type));

    private static async Task<string> Raw(Uri address, string request)
    {
        using var connection = new TcpClient();
        await connection.ConnectAsync(address.Host, address.Port);
        await using var stream = connection.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes(request));
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        using var copy = new MemoryStream();
        try
        {
            await stream.CopyToAsync(copy, patience.Token);
        }
        catch (IOException)
        {
            // The server closes on what it does not read to the end.
        }

        return Encoding.ASCII.GetString(copy.ToArray());
    }
}
