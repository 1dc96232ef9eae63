using System.Diagnostics;
using System.Globalization;
using Dapper;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Testing.Postgres;

namespace Recommender.Benchmarks.Stores;

/// <summary>Durable appends a second on each engine by callers; one log writer on a PostgreSQL database against two, of one organisation and of two; bytes a decision there.</summary>
internal static class StoreBenchmark
{
    private static readonly int[] CallersAtOnce = [1, 16, 64];

    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(4);

    public static async Task Run()
    {
        var records = await RealRecords.Make();
        var table = new Table("Durable appends of real decisions, each flushed before it is answered; server, writers and callers share the cores", "store", "callers", "appends/s", "p50 ms", "p99 ms");
        var folder = Directory.CreateTempSubdirectory("recommender-stores-");
        using (var store = SqliteStore.Open(folder.FullName))
        {
            await Callers(table, "SQLite", [store], records, ["a"]);
        }

        folder.Delete(recursive: true);
        if (PostgresPrograms.WhyNot is { } why)
        {
            table.Print();
            Console.WriteLine(why);
            return;
        }

        using var server = new PostgresServer();
        using (var one = PostgresStore.Open(server.NewDatabase()))
        {
            await Callers(table, "PostgreSQL, one writer", [one], records, ["a"]);
        }

        foreach (var (name, organisations) in new[] { ("two writers, one organisation", new[] { "a", "a" }), ("two writers, an organisation each", ["a", "b"]) })
        {
            var database = server.NewDatabase();
            using var one = PostgresStore.Open(database);
            using var two = PostgresStore.Open(database);
            await Callers(table, $"PostgreSQL, {name}", [one, two], records, organisations);
        }

        table.Print();
        await Sizes(server, records);
    }

    private static async Task Callers(Table table, string name, Store[] stores, RealRecords records, string[] organisations)
    {
        var logs = new List<DecisionLog>();
        foreach (var store in stores)
        {
            logs.Add(await records.LogOn(store));
        }

        foreach (var callers in CallersAtOnce.Where(c => c >= logs.Count))
        {
            _ = await Append(logs, records, organisations, callers, WarmUp);
            var (perSecond, times) = await Append(logs, records, organisations, callers, Measured);
            table.Add(name, Text(callers), perSecond.ToString("N0", CultureInfo.InvariantCulture), Text(Statistics.Quantile(times, 0.5)), Text(Statistics.Quantile(times, 0.99)));
        }

        foreach (var log in logs)
        {
            await log.DisposeAsync();
        }
    }

    private static async Task<(double PerSecond, double[] Times)> Append(List<DecisionLog> logs, RealRecords records, string[] organisations, int callers, TimeSpan time)
    {
        var end = Stopwatch.GetTimestamp() + (long)(time.TotalSeconds * Stopwatch.Frequency);
        var start = Stopwatch.GetTimestamp();
        var times = await Task.WhenAll(Enumerable.Range(0, callers).Select(caller => Task.Run(async () =>
        {
            var mine = new List<double>();
            while (Stopwatch.GetTimestamp() < end)
            {
                var before = Stopwatch.GetTimestamp();
                await logs[caller % logs.Count].Append([records.Next(organisations[caller % organisations.Length])], null);
                mine.Add(Stopwatch.GetElapsedTime(before).TotalMilliseconds);
            }

            return mine;
        })));
        var elapsed = Stopwatch.GetElapsedTime(start).TotalSeconds;
        var all = times.SelectMany(t => t).ToArray();
        Array.Sort(all);
        return (all.Length / elapsed, all);
    }

    private static async Task Sizes(PostgresServer server, RealRecords records)
    {
        const int Decisions = 20_000;
        using var store = PostgresStore.Open(server.NewDatabase());
        await using (var log = await records.LogOn(store))
        {
            for (var i = 0; i < Decisions; i += 200)
            {
                await Task.WhenAll(Enumerable.Range(0, 200).Select(_ => log.Append([records.Next("club")], null).AsTask()));
            }
        }

        var table = new Table($"Bytes a decision on PostgreSQL, {Decisions:N0} decisions", "part", "bytes");
        var parts = await store.Use(c => c.QueryAsync<(string Name, long Bytes)>("""
            SELECT CASE WHEN c.relkind = 't' THEN 'requests and answers beside their rows' ELSE c.relname END, pg_relation_size(c.oid)
            FROM pg_class c
            WHERE c.oid IN (SELECT 'decisions'::regclass UNION SELECT 'decision_exercises'::regclass
                            UNION SELECT indexrelid FROM pg_index WHERE indrelid IN ('decisions'::regclass, 'decision_exercises'::regclass)
                            UNION SELECT reltoastrelid FROM pg_class WHERE oid = 'decisions'::regclass
                            UNION SELECT indexrelid FROM pg_index WHERE indrelid = (SELECT reltoastrelid FROM pg_class WHERE oid = 'decisions'::regclass))
            ORDER BY 2 DESC
            """));
        foreach (var (part, bytes) in parts)
        {
            table.Add(part, (bytes / Decisions).ToString("N0", CultureInfo.InvariantCulture));
        }

        table.Add("all", (parts.Sum(p => p.Bytes) / Decisions).ToString("N0", CultureInfo.InvariantCulture));
        table.Add("exercises a decision stands under", Text(await store.Use(c => c.ExecuteScalarAsync<long>("SELECT COUNT(*) FROM decision_exercises")) / (double)Decisions));
        table.Print();
    }

    private static string Text(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);
}
