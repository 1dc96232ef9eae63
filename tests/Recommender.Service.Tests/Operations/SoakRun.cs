using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Recommender.Testing;

namespace Recommender.Service.Tests.Operations;

/// <summary>What a soak showed.</summary>
/// <param name="Requests">Requests that were answered.</param>
/// <param name="Samples">Seconds, managed heap after its last collection and resident memory, bytes, since the warm-up.</param>
public sealed record SoakResult(int Requests, IReadOnlyList<(double Seconds, long Heap, long Resident)> Samples)
{
    /// <summary>Growth of the heap by the line of least squares, bytes a thousand requests.</summary>
    public double HeapSlope => Slope(s => s.Heap) / Requests * 1000;

    /// <summary>Growth of resident memory by the same line.</summary>
    public double ResidentSlope => Slope(s => s.Resident) / Requests * 1000;

    /// <summary>What the line rises over all samples.</summary>
    private double Slope(Func<(double Seconds, long Heap, long Resident), double> of)
    {
        var x = Samples.Average(s => s.Seconds);
        var y = Samples.Average(of);
        return Samples.Sum(s => (s.Seconds - x) * (of(s) - y)) / Samples.Sum(s => (s.Seconds - x) * (s.Seconds - x)) * (Samples[^1].Seconds - Samples[0].Seconds);
    }
}

/// <summary>Mixed load for some time: recommendations, substitutions, sessions, batches, needs, records, questions about decisions, tables, pages, profiles. Memory is read from the service's own metrics and the kernel.</summary>
public static partial class SoakRun
{
    private const int Workers = 3;
    private const int SamplesWanted = 24;
    private const int MostStretch = 10;

    /// <summary>Runs.</summary>
    /// <param name="time">How long, the warm-up being the first quarter.</param>
    /// <param name="least">Requests that are to be answered after the warm-up at least; on a slow machine each part goes on until it has its share of them.</param>
    /// <param name="say">Where to say each sample; null for nowhere.</param>
    /// <exception cref="TimeoutException">They were not answered within a multiple of the time.</exception>
    public static async Task<SoakResult> Of(TimeSpan time, int least = 0, Action<string>? say = null)
    {
        using var service = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = service.Address };
        var (asked, atWarm) = (0, 0);
        var watch = Stopwatch.StartNew();
        var warm = time / 4;
        var ended = false;
        var work = Enumerable.Range(0, Workers).Select(worker => Task.Run(async () =>
        {
            var last = "";
            for (var i = worker; !Volatile.Read(ref ended); i++)
            {
                last = await One(client, i, last);
                Interlocked.Increment(ref asked);
            }
        })).ToList();
        var samples = new List<(double, long, long)>();
        for (var i = 0; i <= SamplesWanted; i++)
        {
            await Due(i);
            atWarm = i == 0 ? asked : atWarm;
            var metrics = await client.GetStringAsync("/metrics");
            // The heap as its last collection left it: in between it rises and falls.
            var heap = HeapAfterCollection().Matches(metrics).Sum(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture));
            samples.Add((watch.Elapsed.TotalSeconds, (long)heap, service.Resident));
            say?.Invoke($"{watch.Elapsed.TotalSeconds,6:0} s  {asked,8:#,0} requests  heap {heap / 1048576,6:0.0} MB  resident {service.Resident / 1048576.0,6:0.0} MB");
        }

        Volatile.Write(ref ended, true);
        await Task.WhenAll(work);
        return new SoakResult(asked - atWarm, samples);

        async Task Due(int sample)
        {
            var due = warm + ((time - warm) * sample / SamplesWanted);
            while (watch.Elapsed < due || (sample == 0 ? asked < least / 4 : asked - atWarm < least * sample / SamplesWanted))
            {
                if (work.Find(w => w.IsFaulted) is { } failed)
                {
                    await failed;
                }

                await (watch.Elapsed < time * MostStretch ? Task.Delay(50) : throw new TimeoutException($"Only {asked} requests in {watch.Elapsed}."));
            }
        }
    }

    /// <summary>One request of the mix; gives the decision to ask about next.</summary>
    private static async Task<string> One(HttpClient client, int number, string last)
    {
        var athlete = $"{{\"ref\":\"SO-{number % 40}\",\"eventGroup\":\"{(number % 3) switch { 0 => "jumps", 1 => "sprints", _ => "throws" }}\"}}";
        var least = $"{{\"athlete\":{athlete},\"phase\":\"{(number % 2 == 0 ? "competition" : "general-preparation")}\"}}";
        switch (number % 20)
        {
            case < 8:
                return await Post("/v1/recommendations", least);
            case < 11:
                await Post("/v1/substitutions", $"{{\"exercise\":\"back-squat\",\"context\":{least}}}");
                return last;
            case < 13:
                await Post("/v1/sessions", $"{{\"context\":{least}}}");
                return last;
            case 13:
                await Post("/v1/needs", least);
                return last;
            case 14:
                await Post("/v1/recommendations/batch", $"{{\"requests\":[{least},{least}]}}");
                return last;
            case 15 when last.Length > 0:
                await Get(number % 100 == 15 ? $"/v1/decisions/{last}/sensitivity" : $"/v1/decisions/{last}/comparison?first=back-squat&second=front-squat");
                return last;
            case 16 when last.Length > 0:
                await Get($"/answers/{last}");
                return last;
            case 17:
                await Get(number % 3 == 0 ? "/" : number % 3 == 1 ? "/decisions" : "/exercises?q=squat");
                return last;
            case 18:
                await Get("/v1/decisions?athlete=SO-3&limit=20");
                return last;
            default:
                await Get("/v1/exercises?limit=20");
                return last;
        }

        async Task<string> Post(string path, string body)
        {
            using var content = Bodies.Json(body);
            using var answer = await client.PostAsync(path, content);
            var text = await answer.Content.ReadAsStringAsync();
            return answer.IsSuccessStatusCode ? (string?)JsonNode.Parse(text)!["decisionId"] ?? "" : throw new InvalidOperationException($"{path}: {(int)answer.StatusCode} {text}");
        }

        async Task Get(string path)
        {
            using var answer = await client.GetAsync(path);
            await answer.Content.ReadAsByteArrayAsync();
            // Pages of an older kind of decision lead on by a redirect, which the client follows.
            answer.EnsureSuccessStatusCode();
        }
    }

    [GeneratedRegex("^dotnet_gc_last_collection_heap_size_bytes\\{[^}]*\\} ([0-9.eE+]+)", RegexOptions.Multiline)]
    private static partial Regex HeapAfterCollection();
}
