using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The built program as a process of its own.</summary>
public sealed partial class ServerProcess : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);
    private readonly Process process;
    private readonly string folder;

    private ServerProcess(Process process, string folder)
    {
        this.process = process;
        this.folder = folder;
    }

    /// <summary>Starts it on a free loopback port and gives it back when it listens.</summary>
    public static async Task<(ServerProcess Server, Uri Address)> Listening(params (string Name, string Value)[] settings)
    {
        var server = Start([], settings);
        using var patience = new CancellationTokenSource(Patience);
        while (await server.process.StandardOutput.ReadLineAsync(patience.Token) is { } line)
        {
            if (ListeningLine().Match(line) is { Success: true } found)
            {
                return (server, new Uri(found.Groups[1].Value));
            }
        }

        var error = await server.process.StandardError.ReadToEndAsync();
        server.Dispose();
        throw new InvalidOperationException($"The program ended before it listened: {error}");
    }

    /// <summary>Starts it with settings that it must refuse, and gives its exit code and what it said.</summary>
    public static async Task<(int ExitCode, string Output, string Error)> Ended(params (string Name, string Value)[] settings)
    {
        using var server = Start([], settings);
        using var patience = new CancellationTokenSource(Patience);
        var output = server.process.StandardOutput.ReadToEndAsync(patience.Token);
        var error = server.process.StandardError.ReadToEndAsync(patience.Token);
        await server.process.WaitForExitAsync(patience.Token);
        return (server.process.ExitCode, await output, await error);
    }

    /// <summary>Runs a command of the program beside it, on the same store.</summary>
    public async Task<(int ExitCode, string Output, string Error)> Command(params string[] arguments)
    {
        using var command = Process.Start(Program(arguments, folder))!;
        using var patience = new CancellationTokenSource(Patience);
        var output = command.StandardOutput.ReadToEndAsync(patience.Token);
        var error = command.StandardError.ReadToEndAsync(patience.Token);
        await command.WaitForExitAsync(patience.Token);
        return (command.ExitCode, await output, await error);
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

    private static ServerProcess Start(string[] arguments, (string Name, string Value)[] settings)
    {
        var folder = Directory.CreateTempSubdirectory("recommender-").FullName;
        var start = Program(arguments, folder);
        foreach (var (name, value) in settings)
        {
            start.Environment[name] = value;
        }

        return new ServerProcess(Process.Start(start)!, folder);
    }

    private static ProcessStartInfo Program(string[] arguments, string folder)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "Recommender.Api.dll"));
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        start.Environment["Urls"] = "http://127.0.0.1:0";
        start.Environment["Storage__Path"] = folder;
        return start;
    }

    [GeneratedRegex("Now listening on: (http://\\S+)")]
    private static partial Regex ListeningLine();
}
