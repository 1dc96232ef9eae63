using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;

namespace Recommender.Testing;

/// <summary>The service that was built beside the tests as a process of its own on a free loopback port, with a store of its own; everything it writes to its outputs is kept.</summary>
public sealed partial class ServiceProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);
    private readonly Process process;
    private readonly string folder;

    private ServiceProcess(Process process, string folder)
    {
        this.process = process;
        this.folder = folder;
    }

    /// <summary>Where it listens.</summary>
    public Uri Address { get; private set; } = null!;

    /// <summary>Lines of both outputs.</summary>
    public ConcurrentQueue<string> Lines { get; } = new();

    /// <summary>Resident memory, bytes.</summary>
    public long Resident => long.Parse(File.ReadLines($"/proc/{process.Id}/status").First(l => l.StartsWith("VmRSS:", StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024;

    /// <summary>Starts it and gives it back when it listens.</summary>
    /// <exception cref="InvalidOperationException">It ended before; with all it said.</exception>
    public static async Task<ServiceProcess> Start(params (string Name, string Value)[] settings)
    {
        var folder = Directory.CreateTempSubdirectory("recommender-service-").FullName;
        var listens = new TaskCompletionSource<Uri>(TaskCreationOptions.RunContinuationsAsynchronously);
        var service = new ServiceProcess(new Process { StartInfo = Program(folder, [], settings), EnableRaisingEvents = true }, folder);
        service.process.OutputDataReceived += (_, line) => service.Take(line.Data, listens);
        service.process.ErrorDataReceived += (_, line) => service.Take(line.Data, listens);
        service.process.Exited += (_, _) => listens.TrySetException(new InvalidOperationException("The service ended: " + string.Join('\n', service.Lines)));
        service.process.Start();
        service.process.BeginOutputReadLine();
        service.process.BeginErrorReadLine();
        service.Address = await listens.Task.WaitAsync(Patience);
        return service;
    }

    /// <summary>Starts it with settings that it must refuse, and gives its exit code and what it said.</summary>
    public static async Task<(int ExitCode, string Output, string Error)> Refused(params (string Name, string Value)[] settings)
    {
        var folder = Directory.CreateTempSubdirectory("recommender-service-").FullName;
        try
        {
            return await Whole(Program(folder, [], settings));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Runs a command of the program beside it, on the same store.</summary>
    public Task<(int ExitCode, string Output, string Error)> Command(params string[] arguments) => Whole(Program(folder, arguments, []));

    /// <summary>Asks it to stop, as a container engine does.</summary>
    public void Terminate()
    {
        using var kill = Process.Start("kill", ["-TERM", process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    /// <summary>Waits until it has ended and gives its exit code.</summary>
    public async Task<int> Ended()
    {
        using var patience = new CancellationTokenSource(Patience);
        await process.WaitForExitAsync(patience.Token);
        return process.ExitCode;
    }

    /// <summary>A connection to its store behind its back.</summary>
    public SqliteConnection Store()
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "recommender.db")};Pooling=False");
        connection.Open();
        return connection;
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill();
            process.WaitForExit();
        }

        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private static ProcessStartInfo Program(string folder, string[] arguments, (string Name, string Value)[] settings)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Recommender.Api.dll"), .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["Urls"] = "http://127.0.0.1:0";
        start.Environment["Storage__Path"] = folder;
        foreach (var (name, value) in settings)
        {
            start.Environment[name] = value;
        }

        return start;
    }

    private static async Task<(int ExitCode, string Output, string Error)> Whole(ProcessStartInfo program)
    {
        using var process = Process.Start(program)!;
        using var patience = new CancellationTokenSource(Patience);
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(patience.Token);
            var error = process.StandardError.ReadToEndAsync(patience.Token);
            await process.WaitForExitAsync(patience.Token);
            return (process.ExitCode, await output, await error);
        }
        finally
        {
            process.Kill();
        }
    }

    private void Take(string? line, TaskCompletionSource<Uri> listens)
    {
        if (line is null)
        {
            return;
        }

        Lines.Enqueue(line);
        if (ListeningLine().Match(line) is { Success: true } found)
        {
            listens.TrySetResult(new Uri(found.Groups[1].Value));
        }
    }

    [GeneratedRegex("Now listening on: (http://[0-9.:]+)")]
    private static partial Regex ListeningLine();
}
