using System.Globalization;
using Recommender.Service.Tests.Fuzzing;
using Recommender.Service.Tests.Operations;
using Recommender.Service.Tests.Overload;
using Recommender.Service.Tests.Replicas;

namespace Recommender.Service.Tests;

/// <summary>The full size of what the tests run a share of.</summary>
public static class ServiceRuns
{
    private const int FullFuzz = 100_000;
    private const double UsualSoak = 60;
    private const double UsualOutage = 120;
    private const string Usage = "Give fuzz [REQUESTS [SEED]], fuzz-one SEED NUMBER, overload, soak [MINUTES], replicas [SECONDS], or proxy PROXY SERVICE REQUESTS.";

    /// <summary>Runs one and prints its figures.</summary>
    /// <returns>0 when nothing was wrong.</returns>
    public static async Task<int> Main(string[] args)
    {
        switch (args)
        {
            case ["fuzz", ..]:
                return Print(await FuzzRun.Of(args.Length > 2 ? ulong.Parse(args[2], CultureInfo.InvariantCulture) : (ulong)DateTime.UtcNow.Ticks,
                    args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : FullFuzz, Console.WriteLine));
            case ["fuzz-one", var seed, var number]:
                Console.WriteLine(await FuzzRun.Again(ulong.Parse(seed, CultureInfo.InvariantCulture), int.Parse(number, CultureInfo.InvariantCulture)));
                return 0;
            case ["proxy", var proxy, var service, var requests]:
                return await ProxyRun.Run(new Uri(proxy), new Uri(service), int.Parse(requests, CultureInfo.InvariantCulture));
            case ["overload"]:
                return await OverloadRun.Run();
            case ["soak", ..]:
                var soak = await SoakRun.Of(TimeSpan.FromMinutes(args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : UsualSoak), say: Console.WriteLine);
                Console.WriteLine($"{soak.Requests:#,0} requests after the warm-up: heap {soak.HeapSlope / 1024:0.0} KB, resident {soak.ResidentSlope / 1024:0.0} KB a thousand requests");
                return 0;
            case ["replicas", ..]:
                using (var run = new ReplicaRun(Console.WriteLine))
                {
                    return Print(await run.Of(TimeSpan.FromSeconds(args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : UsualOutage)));
                }

            default:
                await Console.Error.WriteLineAsync(Usage);
                return 1;
        }
    }

    private static int Print(ReplicaResult result)
    {
        Console.WriteLine();
        Console.WriteLine($"{result.Answered:#,0} requests, each answered in the end, by {result.Decisions:#,0} decisions, {result.OnNewCatalogue:#,0} on the new catalogue; beside that {string.Join(", ", result.Otherwise.Select(o => $"{o.Key}: {o.Value:#,0}"))}");
        Console.WriteLine($"  {result.Faults} other than 200 and 503, {result.WithoutRetryAfter} 503 without Retry-After");
        Console.WriteLine($"  {result.Missing} not on record, {result.Changed} with other bytes, {result.Differing} replays that differ; chain of {result.Records:#,0} {(result.ChainIntact ? "intact" : "BROKEN")}");
        Console.WriteLine($"  new catalogue seen by the other replica after {result.Seen.TotalSeconds:0.00} s; both answer {result.Recovered.TotalSeconds:0.00} s after the database is back");
        return result.Answered == result.Decisions && result.Faults + result.WithoutRetryAfter + result.Missing + result.Changed + result.Differing == 0 && result.ChainIntact ? 0 : 1;
    }

    private static int Print(FuzzResult result)
    {
        Console.WriteLine();
        Console.WriteLine($"{result.Requests:#,0} requests, seed {result.Seed}, {result.Elapsed.TotalSeconds:0} s, {result.Requests / result.Elapsed.TotalSeconds:0} a second");
        foreach (var (making, (taken, of)) in result.Makings)
        {
            Console.WriteLine($"  {making,-7} {of,7:#,0}, taken {taken:#,0}");
        }

        Console.WriteLine($"  answered {string.Join(", ", result.Statuses.Select(s => $"{s.Key}: {s.Value:#,0}"))} (0: the connection ended)");
        Console.WriteLine($"  decisions on record {result.Records:#,0}, the chain was walked; heap {result.HeapBefore >> 20} MB after a tenth, {result.HeapAfter >> 20} MB at the end");
        Console.WriteLine($"  {result.Faults.Count} faults");
        foreach (var fault in result.Faults)
        {
            Console.WriteLine();
            Console.WriteLine(fault);
        }

        return result.Faults.Count == 0 ? 0 : 1;
    }
}
