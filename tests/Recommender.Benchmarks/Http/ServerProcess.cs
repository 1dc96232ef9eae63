using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;

namespace Recommender.Benchmarks.Http;

/// <summary>A server in its own process on a free loopback port, with its own empty store; gone when disposed.</summary>
internal sealed class ServerProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly Process process;
    private readonly bool keepsFolder;

    private ServerProcess(int port, string storage, params string[] arguments)
        : this(port, storage, new Dictionary<string, string>(), keepsFolder: false, arguments)
    {
    }

    private ServerProcess(int port, string storage, IReadOnlyDictionary<string, string> settings, bool keepsFolder, params string[] arguments)
    {
        this.keepsFolder = keepsFolder;
        Port = port;
        StorageFolder = storage;
        var start = new ProcessStartInfo("dotnet", arguments) { RedirectStandardOutput = true, WorkingDirectory = AppContext.BaseDirectory };
        start.Environment["Storage__Path"] = storage;
        foreach (var (name, value) in settings)
        {
            start.Environment[name] = value;
        }

        Started = Stopwatch.GetTimestamp();
        process = Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
    }

    public int Port { get; }

    public string StorageFolder { get; }

    /// <summary>Timestamp just before the process was started.</summary>
    public long Started { get; }

    /// <summary>The service itself, as built.</summary>
    public static ServerProcess Service() => Service(Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}"));

    /// <summary>The service itself, as built, on a store that is there and goes with it.</summary>
    public static ServerProcess Service(string storage, params (string Name, string Value)[] settings)
    {
        var port = FreePort();
        return new ServerProcess(port, storage, settings.ToDictionary(s => s.Name, s => s.Value), keepsFolder: false, Beside("Recommender.Api.dll"), "--urls", Url(port));
    }

    /// <summary>The service on another store, or on one that is kept.</summary>
    /// <param name="settings">Settings beside the usual ones.</param>
    /// <param name="folder">Folder that outlives the process; null for one that goes with it.</param>
    public static ServerProcess Service(IReadOnlyDictionary<string, string> settings, string? folder)
    {
        var port = FreePort();
        return new ServerProcess(port, folder ?? Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}"), settings, folder is not null, Beside("Recommender.Api.dll"), "--urls", Url(port));
    }

    /// <summary>Kills it.</summary>
    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    /// <summary>One of <see cref="Servers"/>, under the runtime settings of the service.</summary>
    public static ServerProcess OfBenchmark(string which, params string[] more)
    {
        var port = FreePort();
        return new ServerProcess(port, Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}"),
            ["exec", "--runtimeconfig", Beside("Recommender.Api.runtimeconfig.json"), Beside("Recommender.Benchmarks.dll"), "serve", which, Url(port), .. more]);
    }

    /// <summary>Sends a body until it is answered with 200.</summary>
    /// <returns>The answer.</returns>
    public async Task<byte[]> FirstAnswer(byte[] body, string? key = null)
    {
        using var client = new HttpClient();
        client.DefaultRequestHeaders.Authorization = key is null ? null : new("Bearer", key);
        while (true)
        {
            try
            {
                using var content = new ByteArrayContent(body) { Headers = { ContentType = new("application/json") } };
                using var response = await client.PostAsync(new Uri(Url(Port) + HttpBenchmark.Path), content);
                response.EnsureSuccessStatusCode();
                return await response.Content.ReadAsByteArrayAsync();
            }
            catch (HttpRequestException e) when (e.StatusCode is null && !process.HasExited && Stopwatch.GetElapsedTime(Started) < Patience)
            {
                await Task.Delay(5);
            }
        }
    }

    /// <summary>Resident memory in megabytes, from the kernel's own count.</summary>
    public double ResidentMegabytes()
    {
        var line = File.ReadLines($"/proc/{process.Id}/status").First(l => l.StartsWith("VmRSS:", StringComparison.Ordinal));
        return double.Parse(line.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) / 1024;
    }

    /// <summary>Processor time the server has taken so far.</summary>
    public TimeSpan ProcessorTime()
    {
        process.Refresh();
        return process.TotalProcessorTime;
    }

    /// <summary>Bytes of the store's files.</summary>
    public long StoredBytes() => Directory.GetFiles(StorageFolder).Sum(f => new FileInfo(f).Length);

    public void Dispose()
    {
        Kill();
        process.Dispose();
        if (!keepsFolder && Directory.Exists(StorageFolder))
        {
            Directory.Delete(StorageFolder, recursive: true);
        }
    }

    private static string Beside(string file) => Path.Combine(AppContext.BaseDirectory, file);

    private static string Url(int port) => string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}");

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
