using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Testing;

namespace Recommender.Service.Tests.Overload;

/// <summary>
/// What happens when more is asked than there are places. Places are held by real requests that wait for the store, since somebody else holds its lock. The store waits five seconds for a lock, so what is seen
/// counts only when the request that held the place was answered after the lock was given back (<see cref="Patiently.While"/>).
/// </summary>
[Collection(Alone.Name)]
public sealed class AdmissionTests
{
    private const string Outlasts = "the request that holds the place waits for the store until the others were answered";
    private static readonly (string, string)[] OnePlace = [("Work__Single", "1"), ("Work__SingleWaiting", "0"), ("Work__Several", "1"), ("Work__SeveralWaiting", "0"), ("Work__UnreadySeconds", "0.3")];
    private static readonly string Batch = $"{{\"requests\":[{Bodies.Least}]}}";

    [Fact]
    public async Task What_comes_on_top_is_turned_away_at_once_and_what_was_let_in_is_answered()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(201, await client.Save());

        var (refused, alsoRefused, live, shownAsPage) = await WhilePlaceIsHeld(service, client.Save, async () =>
        {
            using var content = Bodies.Json(Bodies.Least);
            using var page = new HttpRequestMessage(HttpMethod.Get, "/exercises") { Headers = { { "Accept", "text/html" } } };
            return (await client.PostAsync("/v1/recommendations", content), await client.GetAsync("/v1/vocabulary"), await client.GetAsync("/health/live"), await client.SendAsync(page));
        });

        var problem = JsonNode.Parse(await refused.Content.ReadAsStringAsync())!;
        Assert.Equal((503, "/problems/overloaded"), ((int)refused.StatusCode, (string)problem["type"]!));
        Assert.True(refused.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Equal(503, (int)alsoRefused.StatusCode);
        Assert.Equal((503, "text/html"), ((int)shownAsPage.StatusCode, shownAsPage.Content.Headers.ContentType?.MediaType));
        Assert.True(shownAsPage.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Equal(200, (int)live.StatusCode);
        Assert.Equal(200, await client.Ask());
    }

    [Fact]
    public async Task Work_on_many_questions_takes_no_place_of_a_single_one()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(200, await client.Ask());

        using var single = await WhilePlaceIsHeld(service, () => client.Ask("/v1/recommendations/batch", Batch), () => client.GetAsync("/v1/exercises?limit=1"));

        Assert.Equal(200, (int)single.StatusCode);
    }

    [Fact]
    public async Task A_call_that_leaves_its_body_out_takes_a_place_like_any_other()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        const string Replay = "/v1/decisions/00000000-0000-7000-8000-000000000000/replay";
        using var free = await client.PostAsync(Replay, null);

        using var refused = await WhilePlaceIsHeld(service, () => client.Ask("/v1/recommendations/batch", Batch), () => client.PostAsync(Replay, null));

        Assert.Equal((404, 503), ((int)free.StatusCode, (int)refused.StatusCode));
    }

    [Fact]
    public async Task Waiting_for_a_commit_holds_no_place()
    {
        using var service = await ServiceProcess.Start(("Work__Single", "1"), ("Work__SingleWaiting", "1"));
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(200, await client.Ask());

        var answered = await Patiently.While(async () =>
        {
            await using var locked = await Lock(service);
            var waiting = client.Ask();
            var statuses = new List<int>();
            while (statuses.Count < 20 && !waiting.IsCompleted)
            {
                using var other = await client.GetAsync("/v1/exercises?limit=1");
                statuses.Add((int)other.StatusCode);
            }

            await locked.DisposeAsync();
            return (statuses, await waiting == 200);
        }, "the commit waits for the lock until the others were answered");

        Assert.Equal(Enumerable.Repeat(200, 20), answered);
    }

    [Fact]
    public async Task A_body_that_comes_slowly_holds_no_place()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        using var slowForm = new TcpClient();
        await slowForm.ConnectAsync(service.Address.Host, service.Address.Port);
        await slowForm.GetStream().WriteAsync("POST / HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 200\r\n\r\na=b"u8.ToArray());

        var answered = await Patiently.While(async () =>
        {
            using var slow = new TcpClient();
            await slow.ConnectAsync(service.Address.Host, service.Address.Port);
            var stream = slow.GetStream();
            await stream.WriteAsync(Encoding.ASCII.GetBytes($"POST /v1/recommendations HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: {Bodies.Least.Length}\r\n\r\n{Bodies.Least[..10]}"));
            var statuses = new List<int>();
            for (var i = 0; i < 20; i++)
            {
                statuses.Add(await client.Ask());
            }

            // After some seconds without a byte the server gives a body up: it says so, or the connection is closed by then.
            var said = "";
            try
            {
                await stream.WriteAsync(Encoding.ASCII.GetBytes(Bodies.Least[10..]));
                var head = new byte[15];
                await stream.ReadExactlyAsync(head);
                said = Encoding.ASCII.GetString(head);
            }
            catch (IOException)
            {
                // As if it had been said.
            }

            return ((statuses, said), said is not ("" or "HTTP/1.1 408 Re"));
        }, "the service waits for the rest of the body until the others were answered");

        Assert.Equal(Enumerable.Repeat(200, 20), answered.statuses);
        Assert.Equal("HTTP/1.1 200 OK", answered.said);
    }

    [Fact]
    public async Task Turning_away_for_long_makes_a_replica_unready_until_it_stops()
    {
        using var service = await ServiceProcess.Start(OnePlace);
        using var client = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(201, await client.Save());

        var busy = await Patiently.While(async () =>
        {
            await using var locked = await Lock(service);
            var held = await Holding(client.Save);
            // Turned away without a pause, also while it is asked whether it is ready.
            using var enough = new CancellationTokenSource();
            var turnedAway = Task.Run(async () =>
            {
                while (!enough.IsCancellationRequested)
                {
                    await client.Ask();
                }
            });
            await Task.Delay(1000);
            using var ready = await client.GetAsync("/health/ready");
            await locked.DisposeAsync();
            await enough.CancelAsync();
            await turnedAway;
            var type = (string?)JsonNode.Parse(await ready.Content.ReadAsStringAsync())!["type"];
            // On a machine that stood still there was a pause; then the store is asked, which is locked.
            return (((int)ready.StatusCode, type), await held == 200 && type != "/problems/store-unavailable");
        }, $"{Outlasts}, without a pause of a second");

        Assert.Equal((503, "/problems/not-ready"), busy);
        await Patiently.Until(async () =>
        {
            using var ready = await client.GetAsync("/health/ready");
            return ready.IsSuccessStatusCode;
        }, "ready again");
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

    /// <summary>Does something while a request holds the one place.</summary>
    private static Task<T> WhilePlaceIsHeld<T>(ServiceProcess service, Func<Task<int>> hold, Func<Task<T>> act) => Patiently.While(async () =>
    {
        await using var locked = await Lock(service);
        var held = await Holding(hold);
        var seen = await act();
        await locked.DisposeAsync();
        return (seen, await held == 200);
    }, Outlasts);

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
