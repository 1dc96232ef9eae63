using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using Recommender.Testing;

namespace Recommender.Service.Tests.Overload;

/// <summary>An export whose reader does not read, or hardly, over a real connection: it holds the only place for walks over the record, and must not hold it for long, nor others without end.</summary>
public sealed class SlowReaderTests : IAsyncLifetime
{
    /// <summary>More than the buffers of two sockets hold.</summary>
    private const int Decisions = 200;
    private const int Together = 50;
    private const string Forever = "600";

    /// <summary>The last chunk of a whole answer (RFC 9112, 7.1).</summary>
    private const string End = "\r\n0\r\n\r\n";
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    private readonly Socket reader = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { ReceiveBufferSize = 4096 };
    private ServiceProcess? service;
    private HttpClient client = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync()
    {
        reader.Dispose();
        client.Dispose();
        service?.Dispose();
        return Task.CompletedTask;
    }

    [Fact]
    public async Task Who_waits_for_the_place_is_told_to_come_again_and_the_export_goes_on_when_it_is_read()
    {
        await Start(("Work__WaitSeconds", "0.5"), ("Work__ReaderSeconds", Forever));

        using var none = Bodies.Json("{}");
        using var waited = await client.PostAsync("/v1/decisions/verify", none);

        Assert.Equal((503, "/problems/overloaded"), ((int)waited.StatusCode, (string)JsonNode.Parse(await waited.Content.ReadAsStringAsync())!["type"]!));
        Assert.True(waited.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        var export = await Rest();
        Assert.EndsWith(End, export, StringComparison.Ordinal);
        await Patiently.Until(async () => await client.Ask("/v1/decisions/verify", "{}") == 200, "the place is given back");
    }

    [Fact]
    public async Task Who_reads_nothing_is_given_up_and_others_walk_the_record()
    {
        await Start(("Work__WaitSeconds", Forever), ("Work__ReaderSeconds", "2"));

        Assert.Equal(200, await client.Ask("/v1/decisions/verify", "{}"));

        Assert.DoesNotContain(End, await Rest());
        Assert.Equal(200, await client.Ask());
        Assert.DoesNotContain(service!.Lines, l => l.Contains("failed", StringComparison.Ordinal));
    }

    /// <summary>So much at a time that no single write takes long: the least rate holds for the whole.</summary>
    [Fact]
    public async Task Who_reads_a_little_now_and_then_is_given_up_too()
    {
        await Start(("Work__WaitSeconds", Forever), ("Work__ReaderSeconds", "3"), ("Work__ReaderBytesPerSecond", "100000000"));

        var walking = client.Ask("/v1/decisions/verify", "{}");
        var export = await Rest(() => Task.Delay(50));

        Assert.Equal(200, await walking);
        Assert.DoesNotContain(End, export);
    }

    /// <summary>A service whose only place for walks is held by an export that nobody reads.</summary>
    private async Task Start(params (string, string)[] settings)
    {
        service = await ServiceProcess.Start(settings);
        client = new HttpClient { BaseAddress = service.Address, Timeout = Patience };
        var batch = $"{{\"requests\":[{string.Join(',', Enumerable.Repeat(Bodies.Least, Together))}]}}";
        for (var i = 0; i < Decisions / Together; i++)
        {
            Assert.Equal(200, await client.Ask("/v1/recommendations/batch", batch));
        }

        await reader.ConnectAsync(service.Address.Host, service.Address.Port);
        await reader.SendAsync(Encoding.ASCII.GetBytes("GET /v1/decisions/export HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"));
        await Patiently.Until(() => Task.FromResult(reader.Available > 0), "the export begins");
    }

    /// <summary>What comes of the export until it is over or the connection ends.</summary>
    private async Task<string> Rest(Func<Task>? pause = null)
    {
        if (pause is null)
        {
            // What lies in the buffers comes slowly through a small window.
            reader.ReceiveBufferSize = 1024 * 1024;
        }

        var (text, buffer) = (new StringBuilder(), new byte[4096]);
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            while (await reader.ReceiveAsync(buffer, patience.Token) is > 0 and var got)
            {
                text.Append(Encoding.Latin1.GetString(buffer, 0, got));
                if (text.Length >= End.Length && text.ToString(text.Length - End.Length, End.Length) == End)
                {
                    break;
                }

                await (pause?.Invoke() ?? Task.CompletedTask);
            }
        }
        catch (SocketException)
        {
            // Given up: the connection was reset.
        }

        return text.ToString();
    }
}
