using Recommender.Answers.Access;
using Recommender.Storage;
using Recommender.Storage.Access;

namespace Recommender.Benchmarks.Http;

/// <summary>What a key costs a request: the service open on loopback beside the service asked with a key, in the same run and under the same load, taking turns.</summary>
internal static class KeyBenchmark
{
    private const int Rounds = 7;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(4);

    public static async Task Run()
    {
        var bodies = Requests.Bodies();
        var folder = Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}");
        var key = await Key(folder);
        using var open = ServerProcess.Service();
        using var keyed = ServerProcess.Service(folder, ("Limits__PerSecond", "1000000"), ("Limits__Burst", "1000000"));
        await open.FirstAnswer(bodies[0]);
        await keyed.FirstAnswer(bodies[0], key);
        await LoadDriver.For(WarmUp, open, bodies);
        await LoadDriver.For(WarmUp, keyed, bodies, key);
        var rounds = new List<(Load Open, Load Keyed)>();
        for (var i = 0; i < Rounds; i++)
        {
            rounds.Add((await LoadDriver.For(Measured, open, bodies), await LoadDriver.For(Measured, keyed, bodies, key)));
        }

        var table = new Table($"POST {HttpBenchmark.Path}, 32 connections, every decision durable, medians of {Rounds} rounds in turns", "asked", "requests/s", "p50 ms", "server us/request");
        Row("without a key, open on loopback", r => r.Open);
        Row("with a key", r => r.Keyed);
        table.Print();
        Console.WriteLine($"Processor time with a key: {Statistics.Median(rounds.Select(r => r.Keyed.ServerUs / r.Open.ServerUs)):0.000} of that without; rate {Statistics.Median(rounds.Select(r => r.Keyed.PerSecond / r.Open.PerSecond)):0.000}.");

        void Row(string name, Func<(Load Open, Load Keyed), Load> of) => table.Add(name, $"{Statistics.Median(rounds.Select(r => of(r).PerSecond)):#,0}", $"{Statistics.Median(rounds.Select(r => of(r).P50Ms)):0.00}",
            $"{Statistics.Median(rounds.Select(r => of(r).ServerUs)):0.0}");
    }

    private static async Task<string> Key(string folder)
    {
        using var store = SqliteStore.Open(folder);
        return (await new AccessKeys(new AccessKeyStore(store), TimeProvider.System).Create(Caller.LocalOrganisation, Scopes.Recommend, null, null))!.Value.Secret.Reveal();
    }
}
