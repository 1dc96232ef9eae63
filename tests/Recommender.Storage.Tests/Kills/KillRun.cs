using System.Diagnostics;
using Recommender.Storage.Decisions;
using Recommender.Storage.Tests.Decisions;

namespace Recommender.Storage.Tests.Kills;

/// <summary>Kills, at moments that a seed decides, programs that append under load, and holds what they had answered against what is there.</summary>
public sealed class KillRun(KilledPlace place, int seed)
{
    /// <summary>A kill comes so long after the program began to append at most; some come before it.</summary>
    private const int LatestMilliseconds = 250;

    private readonly Random random = new(seed);
    private readonly List<string> answered = [];
    private TimeSpan longestStart;

    /// <summary>Kills so many times, each time on what the kill before left.</summary>
    /// <param name="kills">How often.</param>
    /// <param name="said">Told how far it is.</param>
    public async Task<KillReport> Run(int kills, Action<int>? said = null)
    {
        for (var round = 0; round < kills; round++)
        {
            // Every other kill takes the server first, where there is one.
            await Round($"{round}", withServer: round % 2 == 1, beforeItAppends: round % 10 == 9);
            said?.Invoke(round + 1);
        }

        return await Report(kills);
    }

    private async Task Round(string prefix, bool withServer, bool beforeItAppends)
    {
        using var program = Start(prefix);
        var starting = Stopwatch.StartNew();
        var lines = new List<string>();
        if (beforeItAppends)
        {
            await Task.Delay(random.Next(400));
        }
        else
        {
            lines.Add(await program.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException($"The program ended before it was killed: {await program.StandardError.ReadToEndAsync()}"));
            longestStart = starting.Elapsed > longestStart ? starting.Elapsed : longestStart;
        }

        var rest = program.StandardOutput.ReadToEndAsync();
        await Task.Delay(random.Next(LatestMilliseconds));
        if (withServer)
        {
            place.KillServer();
        }

        program.Kill();
        await program.WaitForExitAsync();
        if (withServer)
        {
            place.Revive();
        }

        // What it had said before it died counts too; a line that was cut short does not.
        var text = await rest;
        lines.AddRange(text[..(text.LastIndexOf('\n') + 1)].Split('\n', StringSplitOptions.RemoveEmptyEntries));
        answered.AddRange(lines);
    }

    private async Task<KillReport> Report(int kills)
    {
        using var outside = place.Outside();
        var stored = Chain.Walk(outside).GetValueOrDefault("club", []).ToHashSet(StringComparer.Ordinal);
        var keys = outside.Rows("SELECT key FROM idempotency").Select(r => (string)r[0]!).ToHashSet(StringComparer.Ordinal);
        using var store = place.Open();
        var check = await new ChainVerifier(store, new Packings(store)).Verify("club");
        return new KillReport(
            kills,
            answered.Count,
            stored.Count,
            Missing: answered.Count(id => !stored.Contains(id) || !keys.Contains(id)),
            Half: keys.Count(k => !stored.Contains(k) || (IsPair(k) && !stored.Contains(k + "b"))) + stored.Count(id => !keys.Contains(id.TrimEnd('b'))),
            check.FirstBroken is null && check.Checked == stored.Count,
            longestStart);
    }

    private static bool IsPair(string id) => int.Parse(id[(id.LastIndexOf('/') + 1)..], System.Globalization.CultureInfo.InvariantCulture) % 3 == 0;

    private Process Start(string prefix)
    {
        var start = new ProcessStartInfo(Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet" ? Environment.ProcessPath! : "dotnet") { RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in (string[])["exec", typeof(KillRun).Assembly.Location, "append", .. place.Arguments, prefix])
        {
            start.ArgumentList.Add(argument);
        }

        return Process.Start(start)!;
    }
}

/// <summary>What was found after kills.</summary>
/// <param name="Kills">How many.</param>
/// <param name="Answered">Appends that had been answered.</param>
/// <param name="Stored">Records that are there.</param>
/// <param name="Missing">Answered appends of which something is not there.</param>
/// <param name="Half">Appends of which a part is there without the rest.</param>
/// <param name="ChainHolds">Whether the chain was walked to its end without a break.</param>
/// <param name="LongestStart">From the start of a program to its first answered append, on what a kill had left.</param>
public sealed record KillReport(int Kills, int Answered, int Stored, int Missing, int Half, bool ChainHolds, TimeSpan LongestStart);
