using System.Globalization;

namespace Recommender.Benchmarks.Http;

/// <summary>The whole request over HTTP beside a bare endpoint, in the same run and under the same load, so that a slow or busy machine slows both.</summary>
internal static class HttpBenchmark
{
    public const string Path = "/v1/recommendations";
    private const int Rounds = 5;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(4);

    public static async Task Run()
    {
        var bodies = Requests.Bodies();
        using var storing = ServerProcess.Service();
        var answerBytes = 0;
        foreach (var body in bodies)
        {
            answerBytes += (await storing.FirstAnswer(body)).Length;
        }

        answerBytes /= bodies.Count;
        using var bare = ServerProcess.OfBenchmark("bare", answerBytes.ToString(CultureInfo.InvariantCulture));
        using var serialising = ServerProcess.OfBenchmark("serialising");
        using var off = ServerProcess.OfBenchmark("storing-off");
        await bare.FirstAnswer(bodies[0]);
        await serialising.FirstAnswer(bodies[0]);
        await off.FirstAnswer(bodies[0]);
        foreach (var server in new[] { bare, serialising, off, storing })
        {
            await LoadDriver.For(WarmUp, server.Port, bodies);
        }

        var flush = FlushTimer.Measure();
        var storedBefore = storing.StoredBytes();
        var rounds = new List<(Load Bare, Load Serialising, Load Off, Load Storing)>();
        for (var i = 0; i < Rounds; i++)
        {
            rounds.Add((
                await LoadDriver.For(Measured, bare, bodies),
                await LoadDriver.For(Measured, serialising, bodies),
                await LoadDriver.For(Measured, off, bodies),
                await LoadDriver.For(Measured, storing, bodies)));
        }

        Print(rounds, bodies, answerBytes, flush, (storing.StoredBytes() - storedBefore) / (double)rounds.Sum(r => r.Storing.Answers));
    }

    private static void Print(List<(Load Bare, Load Serialising, Load Off, Load Storing)> rounds, IReadOnlyList<byte[]> bodies, int answerBytes, (double P50, double P99) flush, double storedBytes)
    {
        var table = new Table(
            $"POST {Path}, 32 connections, bodies of {bodies.Average(b => b.Length):0} bytes, answers of {answerBytes:#,0} bytes, medians of {rounds.Count} rounds (goals: storing off 50 % of bare, durable 25 %, better 50 %)",
            "server", "requests/s", "p50 ms", "p99 ms", "of bare", "p99 / bare p99", "server us/request");
        Row("bare endpoint", r => r.Bare);
        Row("bare, ready answer serialised", r => r.Serialising);
        Row("storing off", r => r.Off);
        Row("every decision durable", r => r.Storing);
        table.Print();
        var allowed = (3 * Statistics.Median(rounds.Select(r => r.Bare.P99Ms))) + flush.P50;
        Console.WriteLine($"One flushed SQLite commit: {flush.P50:0.00} ms (p99 {flush.P99:0.00} ms). p99 goal: 3 x bare p99 + one flush = {allowed:0.0} ms.");
        Console.WriteLine($"Stored per decision: {storedBytes:#,0} bytes, {storedBytes / answerBytes:0.00} of the answer.");

        void Row(string name, Func<(Load Bare, Load Serialising, Load Off, Load Storing), Load> of) => table.Add(
            name,
            $"{Statistics.Median(rounds.Select(r => of(r).PerSecond)):#,0}",
            $"{Statistics.Median(rounds.Select(r => of(r).P50Ms)):0.00}",
            $"{Statistics.Median(rounds.Select(r => of(r).P99Ms)):0.00}",
            $"{Statistics.Median(rounds.Select(r => of(r).PerSecond / r.Bare.PerSecond)):0 %}",
            $"{Statistics.Median(rounds.Select(r => of(r).P99Ms / r.Bare.P99Ms)):0.0}",
            $"{Statistics.Median(rounds.Select(r => of(r).ServerUs)):0}");
    }
}
