using System.Buffers.Text;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Recommender.Benchmarks.Http;

/// <summary>What one stretch of load gave.</summary>
/// <param name="PerSecond">Answers a second.</param>
/// <param name="P50Ms">Median time from the first byte sent to the last byte received, milliseconds.</param>
/// <param name="P99Ms">99th percentile of the same.</param>
/// <param name="Answers">Answers counted.</param>
/// <param name="ServerUs">Processor time of the server for an answer, microseconds; steadier than rates while other work shares the cores.</param>
internal sealed record Load(double PerSecond, double P50Ms, double P99Ms, int Answers, double ServerUs = 0);

/// <summary>
/// Closed-loop load over plain sockets: each connection sends its next request when the last answer is whole. An HTTP client
/// library would take more of the shared cores than the servers do.
/// </summary>
internal static class LoadDriver
{
    private const int Connections = 32;

    /// <summary>Drives a server for some time and reads its processor time.</summary>
    /// <exception cref="InvalidOperationException">An answer was not 200.</exception>
    public static async Task<Load> For(TimeSpan time, ServerProcess server, IReadOnlyList<byte[]> bodies, string? key = null)
    {
        var before = server.ProcessorTime();
        var load = await For(time, server.Port, bodies, key);
        return load with { ServerUs = (server.ProcessorTime() - before).TotalMicroseconds / load.Answers };
    }

    /// <summary>Drives a server for some time.</summary>
    /// <exception cref="InvalidOperationException">An answer was not 200.</exception>
    public static Task<Load> For(TimeSpan time, int port, IReadOnlyList<byte[]> bodies, string? key = null)
    {
        var end = Stopwatch.GetTimestamp() + (long)(time.TotalSeconds * Stopwatch.Frequency);
        return Drive(port, bodies, _ => Stopwatch.GetTimestamp() < end, key);
    }

    /// <summary>Sends so many requests in all.</summary>
    /// <exception cref="InvalidOperationException">An answer was not 200.</exception>
    public static Task<Load> Count(int requests, int port, IReadOnlyList<byte[]> bodies) => Drive(port, bodies, sent => sent < requests / Connections);

    private static async Task<Load> Drive(int port, IReadOnlyList<byte[]> bodies, Func<int, bool> goOn, string? key = null)
    {
        var messages = bodies.Select(b => Message(b, key)).ToArray();
        var start = Stopwatch.GetTimestamp();
        var times = await Task.WhenAll(Enumerable.Range(0, Connections).Select(i => Task.Run(() => Connection(port, messages, i, goOn))));
        var elapsed = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var all = times.SelectMany(t => t).ToArray();
        Array.Sort(all);
        return new Load(all.Length / elapsed, Statistics.Quantile(all, 0.5), Statistics.Quantile(all, 0.99), all.Length);
    }

    private static byte[] Message(byte[] body, string? key) =>
    [
        .. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture,
            $"POST {HttpBenchmark.Path} HTTP/1.1\r\nHost: 127.0.0.1\r\n{(key is null ? "" : $"Authorization: Bearer {key}\r\n")}Content-Type: application/json\r\nContent-Length: {body.Length}\r\n\r\n")),
        .. body,
    ];

    private static async Task<List<double>> Connection(int port, byte[][] messages, int first, Func<int, bool> goOn)
    {
        using var socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        await socket.ConnectAsync(IPAddress.Loopback, port);
        var buffer = new byte[512 * 1024];
        var times = new List<double>(100_000);
        for (var sent = 0; goOn(sent); sent++)
        {
            var before = Stopwatch.GetTimestamp();
            await socket.SendAsync(messages[(first + sent) % messages.Length]);
            await Receive(socket, buffer);
            times.Add(Stopwatch.GetElapsedTime(before).TotalMilliseconds);
        }

        return times;
    }

    private static async ValueTask Receive(Socket socket, byte[] buffer)
    {
        var have = 0;
        var whole = int.MaxValue;
        while (have < whole)
        {
            var got = await socket.ReceiveAsync(buffer.AsMemory(have));
            have += got > 0 ? got : throw new InvalidOperationException("The server closed the connection.");
            if (whole == int.MaxValue)
            {
                whole = WholeLength(buffer.AsSpan(0, have));
            }
        }
    }

    /// <summary>Length of head and body, or int.MaxValue while the head is not whole.</summary>
    private static int WholeLength(ReadOnlySpan<byte> received)
    {
        var head = received.IndexOf("\r\n\r\n"u8);
        if (head < 0)
        {
            return int.MaxValue;
        }

        if (!received.StartsWith("HTTP/1.1 200 "u8))
        {
            throw new InvalidOperationException($"Not 200: {Encoding.UTF8.GetString(received)}");
        }

        var name = "Content-Length: "u8;
        var at = received.IndexOf(name);
        return Utf8Parser.TryParse(received[(at + name.Length)..], out int length, out _)
            ? head + "\r\n\r\n"u8.Length + length
            : throw new InvalidOperationException("The answer has no length.");
    }
}
