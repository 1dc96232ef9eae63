using System.Buffers.Text;
using System.Diagnostics;
using System.Net.Sockets;
using System.Text;

namespace Recommender.Service.Tests.Overload;

/// <summary>One connection that sends ready messages over a plain socket; an HTTP client library would take more of the shared cores than the service does.</summary>
/// <param name="service">Where to.</param>
internal sealed class RawClient(Uri service) : IDisposable
{
    private readonly byte[] buffer = new byte[1024 * 1024];
    private Socket? socket;

    /// <summary>A message as it travels.</summary>
    public static byte[] Message(string path, string body) =>
        Encoding.UTF8.GetBytes($"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: {Encoding.UTF8.GetByteCount(body)}\r\n\r\n{body}");

    /// <summary>Sends a message and reads the answer.</summary>
    /// <returns>Status, and milliseconds from the first byte sent to the last byte received.</returns>
    public async ValueTask<(int Status, double Ms)> Ask(byte[] message)
    {
        if (socket is null)
        {
            socket = new Socket(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
            await socket.ConnectAsync(service.Host, service.Port);
        }

        var before = Stopwatch.GetTimestamp();
        await socket.SendAsync(message);
        var have = 0;
        while (true)
        {
            var got = await socket.ReceiveAsync(buffer.AsMemory(have));
            have += got > 0 ? got : throw new IOException("The service closed the connection.");
            if (Whole(buffer.AsSpan(0, have)))
            {
                return (Utf8Parser.TryParse(buffer.AsSpan(9, 3), out int status, out _) ? status : 0, Stopwatch.GetElapsedTime(before).TotalMilliseconds);
            }
        }
    }

    public void Dispose() => socket?.Dispose();

    private static bool Whole(ReadOnlySpan<byte> received)
    {
        var head = received.IndexOf("\r\n\r\n"u8);
        var length = received.IndexOf("Content-Length: "u8);
        return head >= 0 && (length >= 0 && length < head
            ? Utf8Parser.TryParse(received[(length + 16)..], out int bytes, out _) && received.Length >= head + 4 + bytes
            : received.EndsWith("\r\n0\r\n\r\n"u8));
    }
}
