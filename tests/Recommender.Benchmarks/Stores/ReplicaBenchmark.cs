using System.Diagnostics;
using System.Globalization;
using Recommender.Benchmarks.Http;
using Recommender.Testing.Postgres;

namespace Recommender.Benchmarks.Stores;

/// <summary>
/// The service as a process, on each store: how soon it answers after it was killed under load; then one replica on a PostgreSQL database against two, under the same load in all.
/// </summary>
internal static class ReplicaBenchmark
{
    private const int Kills = 10;
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(8);
    private static readonly TimeSpan Measured = TimeSpan.FromSeconds(6);

    public static async Task Run()
    {
        var bodies = Requests.Bodies();
        var starts = new Table($"From the start of the service to its first durable answer, {Kills} times after it was killed under load (goal: under 3 s)", "store", "median s", "worst s");
        await Starts(starts, "SQLite", new Dictionary<string, string>(), bodies);
        using var server = PostgresPrograms.WhyNot is null ? new PostgresServer() : null;
        if (server is null)
        {
            starts.Print();
            Console.WriteLine(PostgresPrograms.WhyNot);
            return;
        }

        await Starts(starts, "PostgreSQL", On(server.NewDatabase()), bodies);
        starts.Print();
        await Replicas(On(server.NewDatabase()), bodies);
    }

    private static async Task Starts(Table table, string name, IReadOnlyDictionary<string, string> settings, IReadOnlyList<byte[]> bodies)
    {
        var times = new List<double>();
        var folder = Directory.CreateTempSubdirectory("recommender-starts-").FullName;
        for (var i = 0; i <= Kills; i++)
        {
            using var service = ServerProcess.Service(settings, folder);
            await service.FirstAnswer(bodies[0]);
            if (i > 0)
            {
                times.Add(Stopwatch.GetElapsedTime(service.Started).TotalSeconds);
            }

            // Killed in the middle of load, which then breaks off.
            var load = LoadDriver.For(TimeSpan.FromSeconds(30), service.Port, bodies);
            await Task.Delay(TimeSpan.FromMilliseconds(700));
            service.Kill();
            try
            {
                await load;
            }
            catch (Exception e) when (e is InvalidOperationException or System.Net.Sockets.SocketException)
            {
                // As it must.
            }
        }

        Directory.Delete(folder, recursive: true);
        table.Add(name, Text(Statistics.Median(times)), Text(times.Max()));
    }

    private static async Task Replicas(IReadOnlyDictionary<string, string> settings, IReadOnlyList<byte[]> bodies)
    {
        using var one = ServerProcess.Service(settings, null);
        using var two = ServerProcess.Service(settings, null);
        foreach (var service in new[] { one, two })
        {
            await service.FirstAnswer(bodies[0]);
            await LoadDriver.For(WarmUp, service.Port, bodies);
        }

        var alone = new List<Load>();
        var both = new List<double>();
        for (var round = 0; round < 3; round++)
        {
            alone.Add(await LoadDriver.For(Measured, one, bodies));
            both.Add((await Task.WhenAll(LoadDriver.For(Measured, one, bodies), LoadDriver.For(Measured, two, bodies))).Sum(l => l.PerSecond));
        }

        var (single, together) = (Statistics.Median(alone.Select(l => l.PerSecond)), Statistics.Median(both));
        var table = new Table($"Replicas on one PostgreSQL, every decision durable, medians of {both.Count} rounds, {Environment.ProcessorCount} cores for server, replicas and load (goal: 1.6 x where the cores allow it)", "what", "figure");
        table.Add("one replica, answers/s", single.ToString("N0", CultureInfo.InvariantCulture));
        table.Add("its processor time an answer, us", Text(Statistics.Median(alone.Select(l => l.ServerUs))));
        table.Add("cores that it kept busy", Text(single * Statistics.Median(alone.Select(l => l.ServerUs)) / 1e6));
        table.Add("two replicas, answers/s", together.ToString("N0", CultureInfo.InvariantCulture));
        table.Add("two against one", Text(together / single));
        table.Print();
    }

    private static Dictionary<string, string> On(string connectionString) => new() { ["Storage__Provider"] = "postgres", ["Storage__ConnectionString"] = connectionString };

    private static string Text(double value) => value.ToString("0.00", CultureInfo.InvariantCulture);
}
