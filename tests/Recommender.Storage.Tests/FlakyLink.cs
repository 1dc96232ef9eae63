using System.Net;
using System.Net.Sockets;
using Npgsql;

namespace Recommender.Storage.Tests;

/// <summary>A network between a log and its server that breaks where a test says, at the moment of a commit.</summary>
public sealed class FlakyLink : IDisposable
{
    private static readonly byte[] Commit = "COMMIT\0"u8.ToArray();

    private readonly TcpListener listener = new(IPAddress.Loopback, 0);
    private readonly int serverPort;
    private volatile Break breaks;
    private volatile bool down;

    public FlakyLink(string connectionString)
    {
        var through = new NpgsqlConnectionStringBuilder(connectionString);
        serverPort = through.Port;
        listener.Start();
        through.Port = ((IPEndPoint)listener.LocalEndpoint).Port;
        ConnectionString = through.ConnectionString;
        _ = Accept();
    }

    /// <summary>Where the link breaks, once.</summary>
    public enum Break
    {
        Nowhere,

        /// <summary>The server never hears of the commit.</summary>
        BeforeTheCommitArrives,

        /// <summary>The server commits, and its answer is lost.</summary>
        BeforeTheAnswerArrives,
    }

    /// <summary>How to connect through it.</summary>
    public string ConnectionString { get; }

    /// <summary>Breaks at the next commit.</summary>
    /// <param name="where">Where.</param>
    /// <param name="forGood">Whether nothing comes through any more afterwards, until <see cref="Mend"/>.</param>
    public void BreakNextCommit(Break where, bool forGood = false)
    {
        GoesDown = forGood;
        breaks = where;
    }

    /// <summary>Lets everything through again.</summary>
    public void Mend() => down = false;

    public void Dispose() => listener.Stop();

    private bool GoesDown { get; set; }

    private async Task Accept()
    {
        try
        {
            while (true)
            {
                var client = await listener.AcceptTcpClientAsync();
                if (down)
                {
                    client.Close();
                    continue;
                }

                var server = new TcpClient();
                await server.ConnectAsync(IPAddress.Loopback, serverPort);
                var cut = new Cut();
                _ = Forward(client, server, cut, toServer: true);
                _ = Forward(server, client, cut, toServer: false);
            }
        }
        catch (Exception e) when (e is SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }

    private async Task Forward(TcpClient from, TcpClient to, Cut cut, bool toServer)
    {
        try
        {
            using (from)
            using (to)
            {
                var buffer = new byte[64 * 1024];
                while (await from.GetStream().ReadAsync(buffer) is > 0 and var length)
                {
                    var isCommit = toServer && breaks != Break.Nowhere && buffer.AsSpan(0, length).IndexOf(Commit) >= 0;
                    if (isCommit)
                    {
                        var where = breaks;
                        breaks = Break.Nowhere;
                        down = GoesDown;
                        if (where == Break.BeforeTheCommitArrives)
                        {
                            return;
                        }

                        cut.AnswerIsLost = true;
                    }

                    if (!toServer && cut.AnswerIsLost)
                    {
                        // The server has answered, so it has committed.
                        return;
                    }

                    await to.GetStream().WriteAsync(buffer.AsMemory(0, length));
                }
            }
        }
        catch (Exception e) when (e is IOException or SocketException or ObjectDisposedException)
        {
            // One side is gone, and with it the other.
        }
    }

    private sealed class Cut
    {
        public volatile bool AnswerIsLost;
    }
}
