using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Testing;
using Recommender.Testing.Postgres;

namespace Recommender.Service.Tests.Replicas;

/// <summary>
/// Two replicas on one PostgreSQL database under load while what may happen happens: a catalogue is put in force through one of them, one is killed and started again, the database server is
/// killed and started again. Every request carries an Idempotency-Key and is sent again, to whichever replica, until it is answered, as a careful client does. Afterwards everything is asked for again.
/// </summary>
public sealed class ReplicaRun : IDisposable
{
    private const int Callers = 8;
    private const int Replicas = 2;
    private const int LeastBetween = 3 * Callers;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private static readonly string[] Groups = ["sprints", "distance", "jumps", "throws", "combined"];

    private readonly PostgresServer server = new();
    private readonly string database;
    private readonly ServiceProcess?[] replicas = new ServiceProcess?[Replicas];
    private readonly ConcurrentDictionary<string, (string DecisionId, string Catalogue, byte[] Hash)> answered = new();
    private readonly ConcurrentDictionary<string, int> otherwise = new();
    private readonly Action<string> say;
    private volatile bool stop;
    private int faults;
    private int withoutRetryAfter;

    /// <param name="say">Told what is happening.</param>
    public ReplicaRun(Action<string> say)
    {
        this.say = say;
        database = server.NewDatabase();
    }

    /// <summary>Runs.</summary>
    /// <param name="time">How long there is load; what happens is spread over it.</param>
    public async Task<ReplicaResult> Of(TimeSpan time)
    {
        await Task.WhenAll(Enumerable.Range(0, Replicas).Select(Start));
        var watch = Stopwatch.StartNew();
        var load = Enumerable.Range(0, Callers).Select(c => Task.Run(() => Call(c))).ToArray();

        await Until(0.2);
        var version = await Draft(replicas[0]!);
        var seen = await Publish(replicas[0]!, replicas[1]!, version);
        Say($"catalogue {version[..8]} put in force through one; the other answers on it {seen.TotalSeconds:0.00} s later");

        await Until(0.4);
        Interlocked.Exchange(ref replicas[0], null)!.Dispose();
        Say("killed one replica");
        await Until(0.55);
        var back = Stopwatch.StartNew();
        await Start(0);
        Say($"it answers again {back.Elapsed.TotalSeconds:0.00} s after its start");

        await Until(0.7);
        server.Kill();
        Say("killed the database server");
        await Task.Delay(TimeSpan.FromSeconds(2));
        var refused = await Task.WhenAll(replicas.Select(r => Refusal(r!)));
        server.Start();
        back.Restart();
        await Task.WhenAll(replicas.Select(r => Answering(r!)));
        var recovered = back.Elapsed;
        Say($"while it was gone both answered {string.Join(" and ", refused)}; both answer {recovered.TotalSeconds:0.00} s after it is back");

        await Until(1);
        stop = true;
        await Task.WhenAll(load);
        Say("load ended");
        return await Check(version, seen, recovered, refused);

        // Between two events each caller is answered, however slow the machine: else nothing would have happened under load.
        async Task Until(double share)
        {
            var before = answered.Count;
            for (var since = Stopwatch.StartNew(); watch.Elapsed < time * share || answered.Count < before + LeastBetween; await Task.Delay(50))
            {
                if (since.Elapsed > time + Patience)
                {
                    throw new InvalidOperationException($"Only {answered.Count - before} requests were answered in {since.Elapsed}.");
                }
            }
        }

        void Say(string what) => say($"{watch.Elapsed.TotalSeconds,6:0.0} s  {answered.Count,7:#,0} answered  {what}");
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var replica in replicas)
        {
            replica?.Dispose();
        }

        server.Dispose();
    }

    private async Task Start(int which)
    {
        var replica = await ServiceProcess.Start(("Storage__Provider", "postgres"), ("Storage__ConnectionString", database));
        await Answering(replica);
        replicas[which] = replica;
    }

    /// <summary>Sends one request after another, now to this replica and now to that, each until it is answered.</summary>
    private async Task Call(int caller)
    {
        using var client = new HttpClient { Timeout = TimeSpan.FromSeconds(60) };
        for (var number = 0; !stop; number++)
        {
            var key = string.Create(CultureInfo.InvariantCulture, $"c{caller}-{number}");
            var body = $$"""{"athlete":{"eventGroup":"{{Groups[(caller + number) % Groups.Length]}}","ref":"RE-{{caller}}"},"phase":"{{(number % 2 == 0 ? "competition" : "general-preparation")}}"}""";
            for (var attempt = 0; !await Answered(client, replicas[(caller + number + attempt) % Replicas], key, body); attempt++)
            {
                await Task.Delay(100);
            }
        }
    }

    private async Task<bool> Answered(HttpClient client, ServiceProcess? replica, string key, string body)
    {
        if (replica is null)
        {
            return false;
        }

        try
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(replica.Address, "/v1/recommendations")) { Content = Bodies.Json(body) };
            request.Headers.Add("Idempotency-Key", key);
            using var response = await client.SendAsync(request);
            var bytes = await response.Content.ReadAsByteArrayAsync();
            if (response.IsSuccessStatusCode)
            {
                var answer = JsonNode.Parse(bytes)!;
                answered[key] = ((string)answer["decisionId"]!, (string)answer["versions"]!["catalogue"]!, SHA256.HashData(bytes));
                return true;
            }

            otherwise.AddOrUpdate(((int)response.StatusCode).ToString(CultureInfo.InvariantCulture), 1, (_, n) => n + 1);
            if ((int)response.StatusCode != 503)
            {
                Interlocked.Increment(ref faults);
            }
            else if (response.Headers.RetryAfter?.Delta is not { } after || after <= TimeSpan.Zero)
            {
                Interlocked.Increment(ref withoutRetryAfter);
            }
        }
        catch (Exception e) when (e is HttpRequestException or IOException or TaskCanceledException)
        {
            otherwise.AddOrUpdate("connection lost", 1, (_, n) => n + 1);
        }

        return false;
    }

    private static async Task<string> Draft(ServiceProcess replica)
    {
        using var client = new HttpClient { BaseAddress = replica.Address, Timeout = Patience };
        using var content = Bodies.Json("""{"basedOn":"current","upsert":[],"remove":["leg-cradle-walk"]}""");
        using var response = await client.PostAsync("/v1/catalogue/versions", content);
        response.EnsureSuccessStatusCode();
        return (string)(await response.Content.ReadFromJsonAsync<JsonNode>())!["version"]!;
    }

    /// <summary>Puts a version in force through one replica and waits until the other answers on it.</summary>
    private static async Task<TimeSpan> Publish(ServiceProcess through, ServiceProcess other, string version)
    {
        using var client = new HttpClient { BaseAddress = through.Address, Timeout = Patience };
        using var content = Bodies.Json($$"""{"version":"{{version}}"}""");
        using var response = await client.PutAsync("/v1/catalogue/current", content);
        response.EnsureSuccessStatusCode();
        var since = Stopwatch.StartNew();
        using var asking = new HttpClient { BaseAddress = other.Address, Timeout = Patience };
        while (await InForce(asking) != version)
        {
            if (since.Elapsed > Patience)
            {
                throw new InvalidOperationException("The other replica does not take over what was put in force.");
            }

            await Task.Delay(20);
        }

        return since.Elapsed;
    }

    private static async Task<string?> InForce(HttpClient client)
    {
        using var content = Bodies.Json(Bodies.Least);
        using var response = await client.PostAsync("/v1/recommendations", content);
        return (string?)(await response.Content.ReadFromJsonAsync<JsonNode>())!["versions"]?["catalogue"];
    }

    /// <summary>What a replica says while the database is gone: status and Retry-After.</summary>
    private static async Task<string> Refusal(ServiceProcess replica)
    {
        using var client = new HttpClient { BaseAddress = replica.Address, Timeout = Patience };
        using var content = Bodies.Json(Bodies.Least);
        using var response = await client.PostAsync("/v1/recommendations", content);
        return $"{(int)response.StatusCode}{(response.Headers.RetryAfter is null ? "" : " with Retry-After")}";
    }

    private static async Task Answering(ServiceProcess replica)
    {
        using var client = new HttpClient { BaseAddress = replica.Address, Timeout = Patience };
        for (var since = Stopwatch.StartNew(); await client.Ask() != 200;)
        {
            if (since.Elapsed > Patience)
            {
                throw new InvalidOperationException("A replica does not answer again.");
            }

            await Task.Delay(50);
        }
    }

    /// <summary>Everything that was answered is asked for again: its record, its bytes by its key from the other replica, and a replay; then the chain is walked.</summary>
    private async Task<ReplicaResult> Check(string version, TimeSpan seen, TimeSpan recovered, string[] refused)
    {
        var watch = Stopwatch.StartNew();
        var (missing, changed, differing) = (0, 0, 0);
        await Parallel.ForEachAsync(answered, new ParallelOptions { MaxDegreeOfParallelism = Replicas }, async (one, cancellation) =>
        {
            using var client = new HttpClient { BaseAddress = replicas[Random.Shared.Next(Replicas)]!.Address, Timeout = Patience };
            using var record = await client.GetAsync($"/v1/decisions/{one.Value.DecisionId}", cancellation);
            if (!record.IsSuccessStatusCode)
            {
                Interlocked.Increment(ref missing);
                return;
            }

            using var document = JsonDocument.Parse(await record.Content.ReadAsByteArrayAsync(cancellation));
            var stored = Encoding.UTF8.GetBytes(document.RootElement.GetProperty("answer").GetRawText());
            if (!SHA256.HashData(stored).AsSpan().SequenceEqual(one.Value.Hash))
            {
                Interlocked.Increment(ref changed);
            }

            using var response = await client.PostAsync($"/v1/decisions/{one.Value.DecisionId}/replay", null, cancellation);
            var replay = await response.Content.ReadFromJsonAsync<JsonNode>(cancellation);
            if (!response.IsSuccessStatusCode || !(bool)replay!["identical"]!)
            {
                Interlocked.Increment(ref differing);
            }
        });
        using var verifying = new HttpClient { BaseAddress = replicas[0]!.Address, Timeout = TimeSpan.FromMinutes(5) };
        using var none = Bodies.Json("{}");
        using var verified = await verifying.PostAsync("/v1/decisions/verify", none);
        var chain = (await verified.Content.ReadFromJsonAsync<JsonNode>())!;
        say($"asked for again in {watch.Elapsed.TotalSeconds:0} s");
        return new ReplicaResult(answered.Count, answered.Values.DistinctBy(a => a.DecisionId).Count(), answered.Values.Count(a => a.Catalogue == version), otherwise.ToDictionary(), faults, withoutRetryAfter, missing, changed, differing,
            (bool)chain["intact"]!, (int)chain["checked"]!, seen, recovered, refused);
    }
}

/// <summary>What a run showed.</summary>
/// <param name="Answered">Requests that were answered, each in the end.</param>
/// <param name="Decisions">Decisions among their answers; one a request when none was made twice.</param>
/// <param name="OnNewCatalogue">Answers on the catalogue that was put in force meanwhile.</param>
/// <param name="Otherwise">What else came back, by status or lost connection.</param>
/// <param name="Faults">Answers that were neither 200 nor 503.</param>
/// <param name="WithoutRetryAfter">503 that did not say when to come again.</param>
/// <param name="Missing">Answered decisions that are not on record.</param>
/// <param name="Changed">Answered decisions whose record holds other bytes than were sent.</param>
/// <param name="Differing">Answered decisions whose replay gave other bytes.</param>
/// <param name="ChainIntact">Whether the chain holds.</param>
/// <param name="Records">Records in it; more than <paramref name="Answered"/> by what was asked without a key.</param>
/// <param name="Seen">From the publication to its first answer by the other replica.</param>
/// <param name="Recovered">From the database's return to answers of both replicas.</param>
/// <param name="Refused">What each replica said while the database was gone.</param>
public sealed record ReplicaResult(
    int Answered, int Decisions, int OnNewCatalogue, IReadOnlyDictionary<string, int> Otherwise, int Faults, int WithoutRetryAfter, int Missing, int Changed, int Differing, bool ChainIntact, int Records,
    TimeSpan Seen, TimeSpan Recovered, IReadOnlyList<string> Refused);
