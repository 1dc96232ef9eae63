using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>Several programs at one store, each with a log of its own.</summary>
public abstract class ReplicaTests(Engine engine) : IAsyncLifetime
{
    private const int Replicas = 4;

    private readonly StorePlace place = engine.NewPlace();
    private readonly List<Store> stores = [];
    private readonly List<DecisionLog> logs = [];

    public Task InitializeAsync()
    {
        stores.AddRange(Enumerable.Range(0, Replicas).Select(_ => place.Open()));
        logs.AddRange(stores.Select(s => new DecisionLog(s, new Packings(s))));
        return Task.CompletedTask;
    }

    public async Task DisposeAsync()
    {
        foreach (var log in logs)
        {
            await log.DisposeAsync();
        }

        stores.ForEach(s => s.Dispose());
        place.Dispose();
    }

    /// <summary>Appends of all organisations share commits in every replica, in an order of its own: they neither fork a chain nor wait for each other for ever.</summary>
    [SkippableFact]
    public async Task Replicas_that_append_at_once_make_one_unbroken_chain_an_organisation()
    {
        string[] organisations = ["a", "b", "c", "d", "e"];
        await Task.WhenAll(Enumerable.Range(0, 400).Select(i => Task.Run(async () =>
        {
            var organisation = organisations[(i * 7 / 3) % organisations.Length];
            Assert.True(await logs[i % Replicas].Append([Record($"d-{i}/1", organisation), Record($"d-{i}/2", organisation)], i % 3 == 0 ? Claim($"key-{i}", response: "{}") : null));
        })));

        using var outside = place.Outside();
        var chains = Chain.Walk(outside);

        Assert.Equal(800, chains.Values.Sum(ids => ids.Count));
        foreach (var (organisation, ids) in chains)
        {
            Assert.All(ids.Chunk(2), two => Assert.Equal(two[0][..^1], two[1][..^1]));
            Assert.Null((await new ChainVerifier(stores[0], new Packings(stores[0])).Verify(organisation)).FirstBroken);
        }
    }

    [SkippableFact]
    public async Task Of_one_key_sent_to_all_replicas_at_once_one_is_stored_and_every_other_is_given_its_answer()
    {
        for (var round = 0; round < 10; round++)
        {
            var key = $"key-{round}";
            var answers = await Task.WhenAll(Enumerable.Range(0, 3 * Replicas).Select(i => Task.Run(async () =>
            {
                var log = logs[i % Replicas];
                var stored = await log.Append([Record($"{key}/{i}")], Claim(key, response: $"{i}"));
                return (stored, Answer: (await log.ReadClaim("club", key, Noon))!.Response.ToArray());
            })));

            var winner = Array.FindIndex(answers, a => a.stored);
            Assert.Single(answers, a => a.stored);
            Assert.All(answers, a => Assert.Equal(System.Text.Encoding.UTF8.GetBytes($"{winner}"), a.Answer));
        }

        using var outside = place.Outside();
        Assert.Equal(10, Chain.Walk(outside)["club"].Count);
    }

    [SkippableFact]
    public async Task An_erasure_in_one_replica_while_others_append_leaves_no_older_record_and_a_chain_that_holds()
    {
        await logs[0].Append([.. Enumerable.Range(0, 50).Select(i => Record($"before-{i}"))], Claim(response: "{}").About(["NM-04"]));
        var appending = Task.WhenAll(Enumerable.Range(0, 60).Select(i => Task.Run(async () => await logs[i % Replicas].Append([Record($"d-{i}")], Claim($"k-{i}", response: "{}").About(["NM-04"])))));
        var erasing = Task.WhenAll(logs.Select(l => l.Erase("club", "NM-04")));
        await Task.WhenAll(appending, erasing);

        Assert.InRange((await erasing).Sum(), 50, 110);
        for (var i = 0; i < 50; i++)
        {
            Assert.True((await logs[1].Read("club", $"before-{i}"))!.PersonalDataErased);
        }

        Assert.Null(await logs[1].ReadClaim("club", "key-1", Noon));
        Assert.Null((await new ChainVerifier(stores[0], new Packings(stores[0])).Verify("club")).FirstBroken);
    }

    [SkippableFact]
    public async Task What_one_replica_answered_another_reads_at_once()
    {
        for (var i = 0; i < 20; i++)
        {
            await logs[i % Replicas].Append([Record($"d-{i}")], null);
            Assert.NotNull(await logs[(i + 1) % Replicas].Read("club", $"d-{i}"));
        }
    }
}

public sealed class SqliteReplicaTests() : ReplicaTests(Engine.Sqlite);

public sealed class PostgresReplicaTests() : ReplicaTests(Engine.Postgres);
