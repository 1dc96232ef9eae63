using System.Diagnostics;

namespace Recommender.Benchmarks.Http;

/// <summary>From the start of the process to its first answer, and what memory it holds after some work.</summary>
internal static class StartBenchmark
{
    private const int Starts = 3;
    private const int Asked = 10_000;

    public static async Task Run()
    {
        var bodies = Requests.Bodies();
        var seconds = new List<double>();
        var (idle, after) = (0.0, 0.0);
        for (var i = 0; i < Starts; i++)
        {
            using var service = ServerProcess.Service();
            await service.FirstAnswer(bodies[0]);
            seconds.Add(Stopwatch.GetElapsedTime(service.Started).TotalSeconds);
            if (i == Starts - 1)
            {
                idle = service.ResidentMegabytes();
                await LoadDriver.Count(Asked, service.Port, bodies);
                after = service.ResidentMegabytes();
            }
        }

        var table = new Table($"Start and memory of the service (goals: first answer within 2 s, best of {Starts}; under 150 MB resident after {Asked:#,0} requests)", "measure", "value");
        table.Add("first answer, best", $"{seconds.Min():0.00} s");
        table.Add("first answer, each", string.Join(", ", seconds.Select(s => $"{s:0.00}")) + " s");
        table.Add("resident after the first answer", $"{idle:0} MB");
        table.Add($"resident after {Asked:#,0} requests", $"{after:0} MB");
        table.Print();
    }
}
