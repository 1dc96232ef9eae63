using System.Net;
using System.Net.Http.Headers;
using Dapper;
using Recommender.Testing;

namespace Recommender.Api.Tests.Hosting;

/// <summary>What is sent counts as it was sent, on the built program over a real connection: a server in memory reads bodies and paths in its own way.</summary>
public sealed class AsSentTests
{
    /// <summary>RFC 9112, 6.3: a body in chunks has no length; RFC 9110, 8.3: it may have no type.</summary>
    [Fact]
    public async Task A_body_without_a_type_is_refused_and_not_dropped()
    {
        using var server = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = server.Address };
        foreach (var (path, without) in new[]
        {
            ("/v1/decisions/verify", 200), ("/v1/decisions/00000000-0000-7000-8000-000000000000/replay", 404), ("/v1/catalogue/versions/current/impact", 200), ("/v1/keys/0000000000000000/rotation", 404),
        })
        {
            using var none = await client.PostAsync(path, null);
            Assert.Equal((path, without), (path, (int)none.StatusCode));
            foreach (var chunked in new[] { true, false })
            {
                using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new ByteArrayContent("{\"colour\":\"red\"}"u8.ToArray()) };
                request.Headers.TransferEncodingChunked = chunked;
                using var response = await client.SendAsync(request);
                await ProblemAssert.Is(response, 415, "unsupported-media-type");

                using var typed = new HttpRequestMessage(HttpMethod.Post, path) { Content = new ByteArrayContent("{\"colour\":\"red\"}"u8.ToArray()) };
                typed.Headers.TransferEncodingChunked = chunked;
                typed.Content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
                using var read = await client.SendAsync(typed);
                await ProblemAssert.Is(read, 400, "malformed-request");
            }
        }
    }

    /// <summary>RFC 3986, 2.4: a part of a path is decoded once, after it was parted. Such refs are taken no more, but may be on record.</summary>
    [Fact]
    public async Task A_ref_with_a_slash_that_is_on_record_is_found_and_erased_and_no_other_with_it()
    {
        using var server = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = server.Address };
        await using var store = server.Store();
        await store.ExecuteAsync("INSERT INTO athletes SELECT organisation, r.ref, replace(profile, 'NM-04', r.ref), updated_at FROM athletes, (SELECT 'a/b' AS ref UNION ALL SELECT 'a%2Fb' UNION ALL SELECT 'a\\b') AS r WHERE athletes.ref = 'NM-04'");

        Assert.Contains("\"ref\":\"a/b\"", await client.GetStringAsync("/v1/athletes/a%2fb"));
        Assert.Contains("\"ref\":\"a%2Fb\"", await client.GetStringAsync("/v1/athletes/a%252Fb"));
        Assert.Equal(HttpStatusCode.NoContent, await Erase("a%2Fb"));
        Assert.Equal(["a%2Fb", "a\\b"], await Left());
        Assert.Equal(HttpStatusCode.NotFound, await Erase("a%2Fb"));
        Assert.Equal(HttpStatusCode.NoContent, await Erase("a%252Fb"));
        Assert.Equal(HttpStatusCode.NoContent, await Erase("a%5Cb"));
        Assert.Empty(await Left());

        async Task<HttpStatusCode> Erase(string sent)
        {
            using var response = await client.DeleteAsync("/v1/athletes/" + sent);
            return response.StatusCode;
        }

        async Task<IEnumerable<string>> Left() => await store.QueryAsync<string>("SELECT ref FROM athletes WHERE ref LIKE 'a%' ORDER BY ref");
    }
}
