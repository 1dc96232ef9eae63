using System.Diagnostics;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;

namespace Recommender.Browser.Tests.Hosting;

/// <summary>The built program as a process of its own, on a store of its own, that can be stopped and started again on the same address.</summary>
public sealed partial class Service : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-").FullName;
    private Process? process;

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = new("http://127.0.0.1:0");

    /// <summary>Starts it; the first time on a free port, later on the same.</summary>
    public async Task Start()
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Recommender.Api.dll"));
        start.Environment["Urls"] = Address.ToString().TrimEnd('/');
        start.Environment["Storage__Path"] = folder;
        process = Process.Start(start)!;
        using var patience = new CancellationTokenSource(Patience);
        while (await process.StandardOutput.ReadLineAsync(patience.Token) is { } line)
        {
            if (ListeningLine().Match(line) is { Success: true } found)
            {
                Address = new Uri(found.Groups[1].Value);
                Drain(process);
                return;
            }
        }

        throw new InvalidOperationException($"The program ended before it listened: {await process.StandardError.ReadToEndAsync()}");
    }

    /// <summary>Ends it at once, as a power cut would.</summary>
    public void Stop()
    {
        if (process is { HasExited: false })
        {
            process.Kill();
            process.WaitForExit();
        }

        process?.Dispose();
        process = null;
    }

    /// <summary>Takes away what protects form tokens, while it is stopped.</summary>
    public void LoseFormKeys()
    {
        using var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "recommender.db")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "DELETE FROM protection_keys";
        Assert.True(command.ExecuteNonQuery() > 0);
    }

    public void Dispose()
    {
        Stop();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>A full pipe would stop the service.</summary>
    private static void Drain(Process running)
    {
        _ = running.StandardOutput.ReadToEndAsync();
        _ = running.StandardError.ReadToEndAsync();
    }

    [GeneratedRegex("Now listening on: (http://\\S+)")]
    private static partial Regex ListeningLine();
}
