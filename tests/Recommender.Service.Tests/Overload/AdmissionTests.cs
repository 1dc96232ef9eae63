using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Testing;

namespace Recommender.Service.Tests.Overload;

/// <summary>What happens when more is asked than there are places. Places are held by real requests that wait for the store, since somebody else holds its lock.</summary>
public sealed class AdmissionTests
{
    private static readonly (string, string)[] OnePlace = [("Work__Single", "1"), ("Work__SingleWaiting", "0"), ("Work__Several", "1"), ("Work__SeveralWaiting", "0"), ("Work__UnreadySeconds", "0.3")];

    [Fact]
    public async Task What_comes_on_top_is_turned_away_at_once_and_what_was_let_in_is_answered()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        var (held, locked) = await Hold(service, client);

        using var content = Bodies.Json(Bodies.Least);
        using var refused = await client.PostAsync("/v1/recommendations", content);
        using var alsoRefused = await client.GetAsync("/v1/vocabulary");
        using var live = await client.GetAsync("/health/live");
        using var page = new HttpRequestMessage(HttpMethod.Get, "/exercises") { Headers = { { "Accept", "text/html" } } };
        using var shownAsPage = await client.SendAsync(page);
        await locked.DisposeAsync();

        var problem = JsonNode.Parse(await refused.Content.ReadAsStringAsync())!;
        Assert.Equal((503, "/problems/overloaded"), ((int)refused.StatusCode, (string)problem["type"]!));
        Assert.True(refused.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Equal(503, (int)alsoRefused.StatusCode);
        Assert.Equal((503, "text/html"), ((int)shownAsPage.StatusCode, shownAsPage.Content.Headers.ContentType?.MediaType));
        Assert.True(shownAsPage.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Equal(200, (int)live.StatusCode);
        Assert.Equal(200, await held);
        Assert.Equal(200, await client.Ask());
    }

    [Fact]
    public async Task Work_on_many_questions_takes_no_place_of_a_single_one()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(200, await client.Ask());
        await using var locked = await Lock(service);
        var batch = await Holding(() => client.Ask("/v1/recommendations/batch", $"{{\"requests\":[{Bodies.Least}]}}"));

        using var single = await client.GetAsync("/v1/exercises?limit=1");
        await locked.DisposeAsync();

        Assert.Equal(200, (int)single.StatusCode);
        Assert.Equal(200, await batch);
    }

    [Fact]
    public async Task A_call_that_leaves_its_body_out_takes_a_place_like_any_other()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        const string Replay = "/v1/decisions/00000000-0000-7000-8000-000000000000/replay";
        using var free = await client.PostAsync(Replay, null);
        await using var locked = await Lock(service);
        var batch = await Holding(() => client.Ask("/v1/recommendations/batch", $"{{\"requests\":[{Bodies.Least}]}}"));

        using var refused = await client.PostAsync(Replay, null);
        await locked.DisposeAsync();

        Assert.Equal((404, 503), ((int)free.StatusCode, (int)refused.StatusCode));
        Assert.Equal(200, await batch);
    }

    [Fact]
    public async Task Waiting_for_a_commit_holds_no_place()
    {
        using var service = await ServiceProcess.Start(("Work__Single", "1"), ("Work__SingleWaiting", "1"));
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(200, await client.Ask());
        await using var locked = await Lock(service);
        var waiting = client.Ask();
        var answered = new List<int>();
        for (var i = 0; i < 20; i++)
        {
            using var other = await client.GetAsync("/v1/exercises?limit=1");
            answered.Add((int)other.StatusCode);
        }

        var waits = !waiting.IsCompleted;
        await locked.DisposeAsync();

        Assert.Equal(Enumerable.Repeat(200, 20), answered);
        Assert.True(waits, "the commit was to wait for the lock while others were answered");
        Assert.Equal(200, await waiting);
    }

    [Fact]
    public async Task A_body_that_comes_slowly_holds_no_place()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        using var slow = new TcpClient();
        await slow.ConnectAsync(service.Address.Host, service.Address.Port);
        var stream = slow.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"POST /v1/recommendations HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: {Bodies.Least.Length}\r\n\r\n{Bodies.Least[..10]}"));
        using var slowForm = new TcpClient();
        await slowForm.ConnectAsync(service.Address.Host, service.Address.Port);
        await slowForm.GetStream().WriteAsync("POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 200\r\n\r\na=b"u8.ToArray());

        for (var i = 0; i < 20; i++)
        {
            Assert.Equal(200, await client.Ask());
        }

        await stream.WriteAsync(Encoding.ASCII.GetBytes(Bodies.Least[10..]));
        var head = new byte[15];
        await stream.ReadExactlyAsync(head);
        Assert.Equal("HTTP/1.1 200 OK", Encoding.ASCII.GetString(head));
    }

    [Fact]
    public async Task Turning_away_for_long_makes_a_replica_unready_until_it_stops()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        var (held, locked) = await Hold(service, client);
        for (var until = DateTime.UtcNow.AddSeconds(1); DateTime.UtcNow < until;)
        {
            Assert.Equal(503, await client.Ask());
        }

        using var busy = await client.GetAsync("/health/ready");
        await locked.DisposeAsync();
        await held;
        var after = 0;
        for (var until = DateTime.UtcNow.AddSeconds(20); after != 200 && DateTime.UtcNow < until;)
        {
            using var ready = await client.GetAsync("/health/ready");
            after = (int)ready.StatusCode;
        }

        Assert.Equal(503, (int)busy.StatusCode);
        Assert.Equal("/problems/not-ready", (string)JsonNode.Parse(await busy.Content.ReadAsStringAsync())!["type"]!);
        Assert.Equal(200, after);
    }

    [Theory]
    [InlineData("Work__Single", "0")]
    [InlineData("Work__Several", "many")]
    [InlineData("Work__DrainSeconds", "-1")]
    public async Task A_limit_that_cannot_be_used_is_told_at_the_start(string name, string value)
    {
        var ended = await Assert.ThrowsAsync<InvalidOperationException>(() => ServiceProcess.Start((name, value)));

        Assert.Contains($"{name} is \"{value}\"", ended.Message);
    }

    /// <summary>Takes the one place: a profile that waits for a lock to be saved.</summary>
    private static async Task<(Task<int> Held, IAsyncDisposable Lock)> Hold(ServiceProcess service, HttpClient client)
    {
        Assert.Equal(200, await client.Ask());
        Assert.Equal(201, await client.Save());
        var locked = await Lock(service);
        var held = await Holding(client.Save);
        return (held, locked);
    }

    /// <summary>Of two that ask at once for the one place, one is turned away; the other holds it.</summary>
    private static async Task<Task<int>> Holding(Func<Task<int>> ask)
    {
        var (one, other) = (ask(), ask());
        var refused = await Task.WhenAny(one, other);
        Assert.Equal(503, await refused);
        return refused == one ? other : one;
    }

    private static async Task<Holder> Lock(ServiceProcess service)
    {
        var connection = service.Store();
        await connection.ExecuteAsync("PRAGMA busy_timeout = 5000; BEGIN IMMEDIATE");
        return new Holder(connection);
    }

    private sealed class Holder(SqliteConnection connection) : IAsyncDisposable
    {
        private bool released;

        public async ValueTask DisposeAsync()
        {
            if (!released)
            {
                released = true;
                await connection.ExecuteAsync("ROLLBACK");
                await connection.DisposeAsync();
            }
        }
    }
}
