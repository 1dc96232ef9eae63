using System.Net.Sockets;
using System.Text;
using Recommender.Testing;

namespace Recommender.Service.Tests.Protocol;

/// <summary>A sender that starts a body and does not go on (RFC 9110, 15.5.9), as a slow one or one that means harm does.</summary>
public sealed class SlowBodyTests
{
    private static readonly string[] Paths = ["/v1/recommendations", "/v1/sessions", "/v1/recommendations/batch"];

    [Fact]
    public async Task Who_stops_sending_is_told_so_and_loses_the_connection_while_others_are_answered()
    {
        using var service = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = service.Address };
        var stalled = Array.ConvertAll(Paths, path => Stall(service.Address, path));

        while (!Task.WhenAll(stalled).IsCompleted)
        {
            Assert.Equal(200, await client.Ask());
        }

        foreach (var answer in await Task.WhenAll(stalled))
        {
            Assert.StartsWith("HTTP/1.1 408 ", answer, StringComparison.Ordinal);
            Assert.Contains("\r\nConnection: close\r\n", answer, StringComparison.Ordinal);
            Assert.Contains("\"type\":\"/problems/request-timeout\"", answer, StringComparison.Ordinal);
        }
    }

    /// <summary>All that comes back, to the end of the connection.</summary>
    private static async Task<string> Stall(Uri address, string path)
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync(address.Host, address.Port);
        await using var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Type: application/json\r\nContent-Length: 500\r\n\r\n{{\"phase\":"));
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(3));
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return await reader.ReadToEndAsync(patience.Token);
    }
}
