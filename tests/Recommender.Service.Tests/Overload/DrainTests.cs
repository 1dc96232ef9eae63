using System.Collections.Concurrent;
using System.Net.Sockets;
using Dapper;
using Recommender.Testing;

namespace Recommender.Service.Tests.Overload;

/// <summary>SIGTERM under load: unready first, then no new connections, every request that was taken is answered and on record, exit code 0.</summary>
[Collection(Alone.Name)]
public sealed class DrainTests
{
    private const int Clients = 8;

    /// <summary>Long enough for a probe to be answered on a machine that is busy with others.</summary>
    private const string DrainSeconds = "5";

    [Fact]
    public async Task A_service_that_is_asked_to_stop_loses_no_request()
    {
        using var service = await ServiceProcess.Start(("Work__DrainSeconds", DrainSeconds), ("Work__Single", "32"));
        var statuses = new ConcurrentBag<int>();
        var broken = new ConcurrentBag<Exception>();
        var stopped = false;
        using var probe = new HttpClient { BaseAddress = service.Address };
        Assert.Equal(200, await probe.Ask());
        statuses.Add(200);
        var load = Enumerable.Range(0, Clients).Select(_ => Task.Run(async () =>
        {
            // Each keeps its connection for as long as the service lets it.
            using var client = new HttpClient { BaseAddress = service.Address };
            while (true)
            {
                try
                {
                    statuses.Add(await client.Ask());
                }
                catch (HttpRequestException e) when (NotTaken(e))
                {
                    return;
                }
                catch (HttpRequestException e)
                {
                    broken.Add(e);
                    return;
                }
            }
        })).ToList();
        await Patiently.Until(() => Task.FromResult(statuses.Count > 2 * Clients), "there is load");

        service.Terminate();

        var (unready, answeredWhileUnready) = (0, 0);
        while (!stopped)
        {
            try
            {
                using var ready = await probe.GetAsync("/health/ready");
                if ((int)ready.StatusCode == 503)
                {
                    unready++;
                    var status = await probe.Ask();
                    statuses.Add(status);
                    answeredWhileUnready += status == 200 ? 1 : 0;
                }
            }
            catch (HttpRequestException)
            {
                stopped = true;
            }
        }

        await Task.WhenAll(load);
        Assert.Equal(0, await service.Ended());
        Assert.Empty(broken);
        Assert.All(statuses, status => Assert.Equal(200, status));
        Assert.True(unready > 0, "it never said that it is not ready");
        // The last time the end may fall between the two questions.
        Assert.InRange(answeredWhileUnready, Math.Max(1, unready - 1), unready);
        await using var store = service.Store();
        Assert.Equal(statuses.Count, await store.ExecuteScalarAsync<int>("SELECT count(*) FROM decisions"));
    }

    /// <summary>
    /// A new connection was refused; or the system had shaken hands for it, and it was reset or closed unread when listening ended (written to after that, it is a broken pipe, which is told as shut down). Had such a
    /// request been taken, there were more records than answers.
    /// </summary>
    private static bool NotTaken(HttpRequestException e) => e.InnerException is HttpIOException { HttpRequestError: HttpRequestError.ResponseEnded }
        || (e.InnerException as SocketException ?? e.InnerException?.InnerException as SocketException)?.SocketErrorCode is SocketError.ConnectionRefused or SocketError.ConnectionReset or SocketError.Shutdown;
}
