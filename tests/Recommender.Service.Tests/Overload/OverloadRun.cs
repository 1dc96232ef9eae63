using System.Diagnostics;
using Recommender.Testing;

namespace Recommender.Service.Tests.Overload;

/// <summary>Answers of one stretch.</summary>
/// <param name="PerSecond">Accepted a second.</param>
/// <param name="ShedPerSecond">Turned away a second.</param>
/// <param name="P50">Median of what was accepted, ms.</param>
/// <param name="P99">99th percentile of the same, ms.</param>
/// <param name="ShedP99">99th percentile of what was turned away, ms; 0 when nothing was.</param>
internal sealed record Stretch(double PerSecond, double ShedPerSecond, double P50, double P99, double ShedP99);

/// <summary>Latency of what is accepted: unloaded, at capacity, at four times capacity, and beside work on many questions.</summary>
internal static class OverloadRun
{
    private const int Rounds = 5;
    private static readonly TimeSpan Each = TimeSpan.FromSeconds(4);
    private static readonly byte[] Single = RawClient.Message("/v1/recommendations", Bodies.Least);

    /// <summary>Measures and prints; the service runs in its own process with its usual limits.</summary>
    public static async Task<int> Run()
    {
        using var service = await ServiceProcess.Start();
        await Closed(service, 16, TimeSpan.FromSeconds(15));
        var rounds = new List<(Stretch Alone, Stretch Full, Stretch Four, Stretch Beside)>();
        for (var i = 0; i < Rounds; i++)
        {
            var alone = await Closed(service, 1, Each);
            var full = await Closed(service, 8, Each);
            var four = await Paced(service, 4 * full.PerSecond, Each);
            var beside = await BesideMany(service);
            rounds.Add((alone, full, four, beside));
            Console.WriteLine($"round {i + 1}: alone p99 {alone.P99:0.0} ms; capacity {full.PerSecond:0}/s; offered {four.PerSecond + four.ShedPerSecond:0}/s: accepted {four.PerSecond:0}/s p99 {four.P99:0.0} ms, shed {four.ShedPerSecond:0}/s p99 {four.ShedP99:0.0} ms; beside batches p99 {beside.P99:0.0} ms");
        }

        Console.WriteLine();
        Print("unloaded, one connection", r => r.Alone);
        Print("at capacity, 8 connections", r => r.Full);
        Print("offered four times capacity", r => r.Four);
        Print("one connection beside batches, trials and walks", r => r.Beside);
        var ratio = Median(rounds.Select(r => r.Four.P99 / r.Alone.P99));
        Console.WriteLine($"p99 of accepted at four times capacity over unloaded p99: {ratio:0.00} (goal 3); accepted over capacity {Median(rounds.Select(r => r.Four.PerSecond / r.Full.PerSecond)):0.00}; beside other work {Median(rounds.Select(r => r.Beside.P99 / r.Alone.P99)):0.00}");
        return ratio <= 3 ? 0 : 1;

        void Print(string name, Func<(Stretch Alone, Stretch Full, Stretch Four, Stretch Beside), Stretch> of) =>
            Console.WriteLine($"  {name,-50} {Median(rounds.Select(r => of(r).PerSecond)),7:0}/s  p50 {Median(rounds.Select(r => of(r).P50)),6:0.00} ms  p99 {Median(rounds.Select(r => of(r).P99)),6:0.00} ms  shed {Median(rounds.Select(r => of(r).ShedPerSecond)),6:0}/s");
    }

    /// <summary>So many connections, each asking again when it is answered.</summary>
    internal static Task<Stretch> Closed(ServiceProcess service, int connections, TimeSpan time) => Gather(service, connections, time, (_, _) => Task.CompletedTask);

    /// <summary>So many requests a second, whatever is answered; a connection that comes late leaves out what it missed.</summary>
    internal static Task<Stretch> Paced(ServiceProcess service, double perSecond, TimeSpan time)
    {
        const int connections = 64;
        var every = connections / perSecond;
        return Gather(service, connections, time, async (connection, elapsed) =>
        {
            var offset = every * connection / connections;
            var next = offset + (Math.Ceiling((elapsed - offset) / every) * every);
            if (next > elapsed)
            {
                await Task.Delay(TimeSpan.FromSeconds(next - elapsed));
            }
        });
    }

    private static async Task<Stretch> BesideMany(ServiceProcess service)
    {
        using var stop = new CancellationTokenSource();
        var batch = RawClient.Message("/v1/recommendations/batch", $"{{\"requests\":[{string.Join(',', Enumerable.Repeat(Bodies.Least, 20))}]}}");
        var walk = RawClient.Message("/v1/decisions/verify", "{}");
        var others = new[] { batch, batch, batch, batch, walk }.Select(message => Task.Run(async () =>
        {
            using var client = new RawClient(service.Address);
            while (!stop.IsCancellationRequested)
            {
                await client.Ask(message);
            }
        })).ToArray();
        var stretch = await Closed(service, 1, Each);
        await stop.CancelAsync();
        await Task.WhenAll(others);
        return stretch;
    }

    private static async Task<Stretch> Gather(ServiceProcess service, int connections, TimeSpan time, Func<int, double, Task> wait)
    {
        var start = Stopwatch.GetTimestamp();
        var all = await Task.WhenAll(Enumerable.Range(0, connections).Select(i => Task.Run(async () =>
        {
            using var client = new RawClient(service.Address);
            var answers = new List<(int Status, double Ms)>();
            while (Stopwatch.GetElapsedTime(start) is var elapsed && elapsed < time)
            {
                await wait(i, elapsed.TotalSeconds);
                answers.Add(await client.Ask(Single));
            }

            return answers;
        })));
        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var accepted = all.SelectMany(a => a).Where(a => a.Status == 200).Select(a => a.Ms).Order().ToArray();
        var shed = all.SelectMany(a => a).Where(a => a.Status == 503).Select(a => a.Ms).Order().ToArray();
        return accepted.Length + shed.Length != all.Sum(a => a.Count) ? throw new InvalidOperationException("There was an answer other than 200 and 503.")
            : new Stretch(accepted.Length / seconds, shed.Length / seconds, At(accepted, 0.5), At(accepted, 0.99), At(shed, 0.99));
    }

    private static double Median(IEnumerable<double> values) => At([.. values.Order()], 0.5);

    private static double At(double[] sorted, double share) => sorted.Length == 0 ? 0 : sorted[(int)Math.Min(sorted.Length - 1, share * sorted.Length)];
}
