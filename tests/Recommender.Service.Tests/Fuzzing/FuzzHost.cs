using System.Collections.Concurrent;
using System.Text;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>The real service on a real loopback socket, with a store of its own and everything that it logs kept.</summary>
public sealed class FuzzHost : WebApplicationFactory<Program>
{
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-fuzz-").FullName;

    public FuzzHost()
    {
        UseKestrel(0);
        StartServer();
        Client = new HttpClient(new SocketsHttpHandler { RequestHeaderEncodingSelector = (_, _) => Encoding.UTF8, AllowAutoRedirect = false, UseCookies = false, MaxConnectionsPerServer = 16 })
        {
            BaseAddress = ClientOptions.BaseAddress,
            Timeout = TimeSpan.FromSeconds(100),
        };
    }

    /// <summary>A client that sends nothing of its own accord.</summary>
    public HttpClient Client { get; }

    /// <summary>What was logged.</summary>
    public ConcurrentQueue<(LogLevel Level, string Text)> Logged { get; } = new();

    /// <summary>Folder of the store.</summary>
    public string Folder => folder;

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("Storage:Path", folder);
        builder.UseSetting("Work:WaitSeconds", "600"); // trials of versions take their time on a busy machine, and a refusal after waiting would count as a fault
        builder.ConfigureLogging(logging => logging.AddProvider(new Keeper(Logged)));
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (disposing && Directory.Exists(folder))
        {
            Client.Dispose();
            SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }

    private sealed class Keeper(ConcurrentQueue<(LogLevel Level, string Text)> logged) : ILoggerProvider, ILogger
    {
        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            logged.Enqueue((logLevel, formatter(state, exception) + exception));

        public void Dispose()
        {
        }
    }
}
