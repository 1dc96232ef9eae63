using System.Globalization;
using Recommender.Service.Tests.Fuzzing;

namespace Recommender.Service.Tests;

/// <summary>The full size of what the tests run a share of.</summary>
public static class ServiceRuns
{
    private const int FullFuzz = 100_000;
    private const string Usage = "Give fuzz [REQUESTS [SEED]] or fuzz-one SEED NUMBER.";

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
            default:
                await Console.Error.WriteLineAsync(Usage);
                return 1;
        }
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
