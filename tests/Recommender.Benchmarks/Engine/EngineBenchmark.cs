using System.Diagnostics;
using Recommender.Domain;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Benchmarks.Engine;

/// <summary>The engine alone on one thread: needs, gates, scores, the ten best with dose and explanation; no HTTP, JSON or store.</summary>
internal static class EngineBenchmark
{
    private const int Picks = 10;
    private static readonly int[] Sizes = [120, 1_000, 10_000, 100_000];
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(3);

    public static void Run()
    {
        var shipped = Requests.ShippedEdition();
        var requests = Requests.OfTheSquad(Picks);
        var table = new Table($"Engine alone, {requests.Count} requests, {Picks} picks each with full explanation (goals: 1,000 under 200 us and 64 KB beside the answer; 100,000 under 20 ms)",
            "exercises", "median us", "best us", "processor us", "worst request us", "ns/exercise", "allocated KB", "answer KB", "beside it KB");
        Times(GrownCatalogue.Of(shipped, Sizes[0]), requests); // until the compiler has settled
        foreach (var size in Sizes)
        {
            var edition = GrownCatalogue.Of(shipped, size);
            var (times, processor) = Times(edition, requests);
            var allocated = Allocated(edition, requests);
            var kept = Kept(edition, requests);
            var median = times.Select(t => Statistics.Median(t)).Average();
            table.Add($"{size:#,0}", $"{median:0.0}", $"{times.Average(t => t.Min()):0.0}", $"{processor:0.0}", $"{times.Max(t => Statistics.Median(t)):0.0}", $"{median * 1000 / size:0.0}",
                $"{allocated / 1024:0.0}", $"{kept / 1024:0.0}", $"{(allocated - kept) / 1024:0.0}");
        }

        table.Print();
        Console.WriteLine("median: of each request's runs, then the mean over requests. processor: time of the whole process a run, with the compiler's and collector's threads.");
        Console.WriteLine("answer: growth of the heap per answer that is kept, after a full collection, so what the answer");
        Console.WriteLine("itself is made of; beside it: bytes allocated in a run less that.");
    }

    /// <summary>[request][run] microseconds, and the processor time of a run.</summary>
    private static (double[][] Times, double Processor) Times(Edition edition, IReadOnlyList<RecommendationRequest> requests)
    {
        var times = requests.Select(_ => new List<double>()).ToArray();
        Round(edition, requests, Measured / 3, null);
        var before = Environment.CpuUsage.TotalTime;
        Round(edition, requests, Measured, times);
        var processor = (Environment.CpuUsage.TotalTime - before).TotalMicroseconds / times.Sum(t => t.Count);
        return ([.. times.Select(t => t.ToArray())], processor);
    }

    private static void Round(Edition edition, IReadOnlyList<RecommendationRequest> requests, TimeSpan atLeast, List<double>[]? times)
    {
        var start = Stopwatch.GetTimestamp();
        do
        {
            for (var i = 0; i < requests.Count; i++)
            {
                var before = Stopwatch.GetTimestamp();
                _ = RecommendationPipeline.Answer(requests[i], edition, "");
                times?[i].Add(Stopwatch.GetElapsedTime(before).TotalMicroseconds);
            }
        }
        while (Stopwatch.GetElapsedTime(start) < atLeast);
    }

    /// <summary>Bytes allocated by a run, mean over the requests.</summary>
    private static double Allocated(Edition edition, IReadOnlyList<RecommendationRequest> requests)
    {
        const int Rounds = 20;
        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var i = 0; i < Rounds * requests.Count; i++)
        {
            _ = RecommendationPipeline.Answer(requests[i % requests.Count], edition, "");
        }

        return (GC.GetAllocatedBytesForCurrentThread() - before) / (double)(Rounds * requests.Count);
    }

    /// <summary>Bytes that stay reachable through an answer and through nothing else, mean over the requests.</summary>
    private static double Kept(Edition edition, IReadOnlyList<RecommendationRequest> requests)
    {
        const int Rounds = 20;
        var answers = new Answer[Rounds * requests.Count];
        var before = GC.GetTotalMemory(forceFullCollection: true);
        for (var i = 0; i < answers.Length; i++)
        {
            answers[i] = RecommendationPipeline.Answer(requests[i % requests.Count], edition, "");
        }

        var after = GC.GetTotalMemory(forceFullCollection: true);
        GC.KeepAlive(answers);
        return (after - before) / (double)answers.Length;
    }
}
