using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;
using Microsoft.Extensions.Logging;
using Recommender.Api.Hosting;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>What a run found.</summary>
/// <param name="Seed">Seed.</param>
/// <param name="Requests">Requests sent.</param>
/// <param name="Statuses">How many were answered with each status.</param>
/// <param name="Makings">How many of each making were taken (below 400), of how many.</param>
/// <param name="Faults">What was wrong, with the number of its request; the first of each kind.</param>
/// <param name="Records">Decisions on record at the end.</param>
/// <param name="HeapBefore">Managed heap after the first tenth, bytes, collected.</param>
/// <param name="HeapAfter">Managed heap at the end, bytes, collected.</param>
/// <param name="Elapsed">How long it took.</param>
public sealed record FuzzResult(
    ulong Seed, int Requests, IReadOnlyDictionary<int, int> Statuses, IReadOnlyDictionary<Making, (int Taken, int Of)> Makings,
    IReadOnlyList<string> Faults, long Records, long HeapBefore, long HeapAfter, TimeSpan Elapsed);

/// <summary>Sends generated requests to the service and judges each answer, the log, the memory and, at the end, the chain.</summary>
public static class FuzzRun
{
    private const int AtOnce = 4;
    private const int MostFaults = 25;

    /// <summary>The largest body that any call takes, bytes.</summary>
    private const int LargestBody = BodyReader.BatchLimit;

    /// <summary>Lines of an export that are looked at; it grows with the run, and the client then goes away in the middle, as clients do.</summary>
    private const int MostLines = 200;

    /// <summary>Dots and escapes are sent as they stand, not tidied by the client.</summary>
    private static readonly UriCreationOptions AsItStands = new() { DangerousDisablePathAndQueryCanonicalization = true };

    /// <summary>Runs.</summary>
    /// <param name="seed">Seed.</param>
    /// <param name="requests">How many.</param>
    /// <param name="say">Where to say how far it is; null for nowhere.</param>
    public static async Task<FuzzResult> Of(ulong seed, int requests, Action<string>? say = null)
    {
        await using var host = new FuzzHost();
        var (maker, judge) = await Preparation.Of(host.Client);
        say?.Invoke($"seed {seed}");
        var statuses = new ConcurrentDictionary<int, int>();
        var makings = new ConcurrentDictionary<Making, (int Taken, int Of)>();
        var faults = new ConcurrentQueue<string>();
        var watch = Stopwatch.StartNew();
        var heapBefore = 0L;
        var tenth = Math.Max(1, requests / 10);
        for (var part = 0; part * tenth < requests; part++)
        {
            await Parallel.ForEachAsync(Enumerable.Range(part * tenth, Math.Min(tenth, requests - (part * tenth))), new ParallelOptions { MaxDegreeOfParallelism = AtOnce }, async (number, _) =>
            {
                var asked = maker.Make(seed, number);
                var (status, fault) = await Ask(host.Client, judge, asked);
                if (fault is not null)
                {
                    say?.Invoke($"request {number}: {fault}");
                }

                statuses.AddOrUpdate(status, 1, (_, n) => n + 1);
                makings.AddOrUpdate(asked.Making, (status < 400 ? 1 : 0, 1), (_, m) => (m.Taken + (status < 400 ? 1 : 0), m.Of + 1));
                if (fault is not null && faults.Count < MostFaults)
                {
                    faults.Enqueue($"request {number}: {fault}\n{asked}");
                }
            });
            while (host.Logged.TryDequeue(out var line))
            {
                if ((line.Level >= LogLevel.Error || line.Text.Contains(HostileText.Mark, StringComparison.Ordinal)) && faults.Count < MostFaults)
                {
                    faults.Enqueue($"logged up to request {(part + 1) * tenth}: {line.Level} {line.Text}");
                }
            }

            heapBefore = part == 0 ? GC.GetTotalMemory(forceFullCollection: true) : heapBefore;
            say?.Invoke($"{Math.Min(requests, (part + 1) * tenth):#,0} requests, {watch.Elapsed.TotalSeconds:0} s, {faults.Count} faults, heap {GC.GetTotalMemory(true) >> 20} MB, resident {Environment.WorkingSet >> 20} MB");
        }

        var heapAfter = GC.GetTotalMemory(forceFullCollection: true);
        var check = await Preparation.Post(host.Client, "/v1/decisions/verify", "{}");
        if (!(bool)check["intact"]!)
        {
            faults.Enqueue($"the chain does not verify: {check.ToJsonString()}");
        }

        foreach (var page in new[] { "/", "/decisions", "/exercises", "/squad", "/season" })
        {
            using var answer = await host.Client.GetAsync(page);
            var text = await answer.Content.ReadAsStringAsync();
            if (!answer.IsSuccessStatusCode || text.Contains("<script>alert", StringComparison.Ordinal) || text.Contains("<img src=x", StringComparison.Ordinal) || text.Contains("<svg/onload", StringComparison.Ordinal))
            {
                faults.Enqueue($"the page {page} shows what was sent as markup, or not at all: {(int)answer.StatusCode}");
            }
        }

        return new FuzzResult(seed, requests, new SortedDictionary<int, int>(statuses), new SortedDictionary<Making, (int, int)>(makings), [.. faults], (long)check["checked"]!, heapBefore, heapAfter, watch.Elapsed);
    }

    /// <summary>The request of a number again, and what is said of its answer.</summary>
    public static async Task<string> Again(ulong seed, int number)
    {
        await using var host = new FuzzHost();
        var (maker, judge) = await Preparation.Of(host.Client);
        var asked = maker.Make(seed, number);
        var (status, fault) = await Ask(host.Client, judge, asked);
        return $"{asked}\n{status} {fault ?? "is right"}\n{string.Join('\n', host.Logged.Where(l => l.Level >= LogLevel.Error).Select(l => l.Text))}";
    }

    private static async Task<(int Status, string? Fault)> Ask(HttpClient client, Judge judge, FuzzCase asked)
    {
        try
        {
            using var message = Message(client.BaseAddress!, asked);
            using var answer = await client.SendAsync(message, HttpCompletionOption.ResponseHeadersRead);
            var body = answer.Content.Headers.ContentType?.MediaType == Judge.Lines ? await FirstLines(answer) : await answer.Content.ReadAsByteArrayAsync();
            return ((int)answer.StatusCode, judge.Fault(asked, answer, body));
        }
        catch (HttpRequestException e) when (asked.Making == Making.Broken || asked.Body?.Length > LargestBody)
        {
            // A body that is refused while it is still sent ends the connection; so does what is no HTTP.
            return (0, e.InnerException is IOException or null ? null : e.ToString());
        }
        catch (Exception e)
        {
            return (0, e.ToString());
        }
    }

    private static async Task<byte[]> FirstLines(HttpResponseMessage answer)
    {
        using var reader = new StreamReader(await answer.Content.ReadAsStreamAsync());
        var lines = new StringBuilder();
        for (var i = 0; i < MostLines && await reader.ReadLineAsync() is { } line; i++)
        {
            lines.Append(line).Append('\n');
        }

        return Encoding.UTF8.GetBytes(lines.ToString());
    }

    /// <summary>The request as a message to a service.</summary>
    internal static HttpRequestMessage Message(Uri service, FuzzCase asked)
    {
        var message = new HttpRequestMessage(new HttpMethod(asked.Method), new Uri(service.GetLeftPart(UriPartial.Authority) + asked.Target, AsItStands));
        if (asked.Body is not null)
        {
            message.Content = new ByteArrayContent(asked.Body);
            if (asked.ContentType is not null)
            {
                message.Content.Headers.TryAddWithoutValidation("Content-Type", asked.ContentType);
            }

            if (asked.ContentEncoding is not null)
            {
                message.Content.Headers.Add("Content-Encoding", asked.ContentEncoding);
            }
        }

        foreach (var (name, value) in asked.Headers)
        {
            message.Headers.TryAddWithoutValidation(name, value);
        }

        return message;
    }
}
