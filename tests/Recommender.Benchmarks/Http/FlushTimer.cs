using System.Diagnostics;
using Dapper;
using Recommender.Storage;

namespace Recommender.Benchmarks.Http;

/// <summary>What one durable commit costs on this disk: a small row a transaction, each flushed.</summary>
internal static class FlushTimer
{
    private const int Commits = 300;

    /// <returns>Milliseconds: median and 99th percentile.</returns>
    public static (double P50, double P99) Measure()
    {
        var folder = Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}");
        try
        {
            using var connection = SqliteStore.Open(folder).Connect();
            var times = new double[Commits];
            for (var i = 0; i < Commits; i++)
            {
                var before = Stopwatch.GetTimestamp();
                connection.Execute("INSERT INTO marks (name) VALUES (@name)", new { name = $"{i}" });
                times[i] = Stopwatch.GetElapsedTime(before).TotalMilliseconds;
            }

            Array.Sort(times);
            return (Statistics.Quantile(times, 0.5), Statistics.Quantile(times, 0.99));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
