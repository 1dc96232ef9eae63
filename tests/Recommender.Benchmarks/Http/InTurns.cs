namespace Recommender.Benchmarks.Http;

/// <summary>Two ways to run or ask the service, under the same load in the same run, taking turns.</summary>
internal static class InTurns
{
    private const int Rounds = 7;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(4);

    /// <summary>Compares them and prints the ratio of the second to the first.</summary>
    public static async Task Compare(Asked first, Asked second)
    {
        var bodies = Requests.Bodies();
        foreach (var asked in new[] { first, second })
        {
            await asked.Server.FirstAnswer(bodies[0], asked.Key);
            await LoadDriver.For(WarmUp, asked.Server, bodies, asked.Key);
        }

        var rounds = new List<(Load First, Load Second)>();
        for (var i = 0; i < Rounds; i++)
        {
            rounds.Add((await LoadDriver.For(Measured, first.Server, bodies, first.Key), await LoadDriver.For(Measured, second.Server, bodies, second.Key)));
        }

        var table = new Table($"POST {HttpBenchmark.Path}, 32 connections, every decision durable, medians of {Rounds} rounds in turns", "asked", "requests/s", "p50 ms", "server us/request");
        Row(first.Name, r => r.First);
        Row(second.Name, r => r.Second);
        table.Print();
        Console.WriteLine($"Processor time {second.Name}: {Statistics.Median(rounds.Select(r => r.Second.ServerUs / r.First.ServerUs)):0.000} of that {first.Name}; rate {Statistics.Median(rounds.Select(r => r.Second.PerSecond / r.First.PerSecond)):0.000}.");

        void Row(string name, Func<(Load First, Load Second), Load> of) => table.Add(name, $"{Statistics.Median(rounds.Select(r => of(r).PerSecond)):#,0}", $"{Statistics.Median(rounds.Select(r => of(r).P50Ms)):0.00}",
            $"{Statistics.Median(rounds.Select(r => of(r).ServerUs)):0.0}");
    }

    /// <summary>One way.</summary>
    /// <param name="Name">Its name in the table.</param>
    /// <param name="Server">The service.</param>
    /// <param name="Key">The key that is sent; null for none.</param>
    public sealed record Asked(string Name, ServerProcess Server, string? Key = null);
}
