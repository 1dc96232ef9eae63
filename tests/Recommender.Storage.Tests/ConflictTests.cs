using System.Text;
using Dapper;
using Recommender.Storage.Access;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;
using Recommender.Testing.Postgres;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests;

/// <summary>
/// Work that met somebody else's and was undone by the server is run again, whatever work it is. Source of the codes and of what may be done after them: PostgreSQL documentation, 13.5 "Serialization Failure
/// Handling" (40001, and 40P01 for deadlocks: the whole transaction may be run again) and appendix A.
/// </summary>
public sealed class ConflictTests : IDisposable
{
    private readonly string connectionString;
    private readonly Store store;

    public ConflictTests()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        connectionString = PostgresServer.Shared.NewDatabase();
        store = PostgresStore.Open(connectionString);
    }

    public void Dispose()
    {
        store.Dispose();
        PostgresServer.Shared.Drop(connectionString);
    }

    /// <summary>Each kind of work that writes, by the table whose rows it writes last.</summary>
    public static TheoryData<string, string> Works => new()
    {
        { "athletes", "save a profile" }, { "athletes", "save a profile again" }, { "athletes", "remove a profile" }, { "athletes", "save profiles once" }, { "outcomes", "append a report" }, { "outcomes", "erase reports" },
        { "decisions", "append a decision" }, { "decisions", "erase decisions" }, { "knowledge_versions", "keep a version" }, { "knowledge_versions", "discard a version" }, { "knowledge_publications", "put in force" },
        { "preferences", "keep what was learned" }, { "preference_publications", "put what was learned in force" }, { "access_keys", "add a key" }, { "access_keys", "rotate a key" }, { "access_keys", "revoke a key" },
        { "protection_keys", "add a protection key" }, { "dictionaries", "add a dictionary" }, { "marks", "write a mark" },
    };

    [SkippableTheory]
    [MemberData(nameof(Works))]
    public async Task Work_that_is_undone_as_often_as_is_borne_is_done_once_all_the_same(string table, string work)
    {
        var (prepare, act) = Work(work);
        await prepare();
        using var outside = OutsideConnection.ToPostgres(connectionString);
        UndoneTimes(outside, table, 8, "40001");

        await act();

        // The last time may be two statements, and an upsert fires twice.
        Assert.InRange(outside.Value<long>("SELECT last_value FROM tries"), 9, 11);
    }

    [SkippableFact]
    public async Task Work_that_is_undone_more_often_is_told_as_a_store_that_cannot_be_used_and_leaves_nothing()
    {
        using var outside = OutsideConnection.ToPostgres(connectionString);
        UndoneTimes(outside, "athletes", 1000, "40001");

        var e = await Assert.ThrowsAsync<StoreUnavailableException>(() => new AthleteStore(store).Save("club", "NM-04", "{}", Noon));

        Assert.False(e.MayBeStored);
        Assert.Equal(9, outside.Value<long>("SELECT last_value FROM tries"));
        Assert.Equal(0, outside.Value<long>("SELECT COUNT(*) FROM athletes"));
    }

    /// <summary>Other faults are not run again: a rule that is broken stays broken.</summary>
    [SkippableFact]
    public async Task What_breaks_a_rule_is_tried_once()
    {
        using var outside = OutsideConnection.ToPostgres(connectionString);
        UndoneTimes(outside, "athletes", 1000, "23514");

        await Assert.ThrowsAsync<StoreUnavailableException>(() => new AthleteStore(store).Save("club", "NM-04", "{}", Noon));

        Assert.Equal(1, outside.Value<long>("SELECT last_value FROM tries"));
    }

    /// <summary>A real deadlock: two that lock two rows in opposite orders. The server undoes one of them, or, where both have waited for long on a busy machine, each.</summary>
    [SkippableFact]
    public async Task Of_two_that_wait_for_each_other_both_are_done()
    {
        using var outside = OutsideConnection.ToPostgres(connectionString);
        outside.Run("INSERT INTO athletes (organisation, ref, profile, updated_at) VALUES ('club', 'a', '0', 0), ('club', 'b', '0', 0)");
        var runs = 0;
        var (firstHolds, secondHolds) = (new TaskCompletionSource(), new TaskCompletionSource());

        await Task.WhenAll(Both("a", "b", firstHolds, secondHolds), Both("b", "a", secondHolds, firstHolds));

        Assert.True(runs > 2, "there was no deadlock");
        Assert.Equal(["2", "2"], outside.Rows("SELECT profile FROM athletes ORDER BY ref").Select(r => (string)r[0]!));

        Task<bool> Both(string one, string other, TaskCompletionSource mine, TaskCompletionSource theirs) => store.Use(async c =>
        {
            Interlocked.Increment(ref runs);
            await using var transaction = await c.BeginTransactionAsync();
            await Add(one);
            mine.TrySetResult();
            await theirs.Task;
            await Add(other);
            await transaction.CommitAsync();
            return true;

            Task Add(string reference) => c.ExecuteAsync("UPDATE athletes SET profile = (profile::int + 1)::text WHERE ref = @reference", new { reference }, transaction);
        });
    }

    /// <summary>A real conflict: what a transaction of the strictest isolation read was changed by another before it wrote. The server undoes it.</summary>
    [SkippableFact]
    public async Task What_read_something_that_another_changed_meanwhile_reads_it_again()
    {
        using var outside = OutsideConnection.ToPostgres(connectionString);
        outside.Run("INSERT INTO athletes (organisation, ref, profile, updated_at) VALUES ('club', 'a', '1', 0)");
        var runs = 0;

        var written = await store.Use(async c =>
        {
            await using var transaction = await c.BeginTransactionAsync(System.Data.IsolationLevel.Serializable);
            var read = await c.ExecuteScalarAsync<int>("SELECT profile::int FROM athletes WHERE ref = 'a'", transaction: transaction);
            if (++runs == 1)
            {
                outside.Run("UPDATE athletes SET profile = '10' WHERE ref = 'a'");
            }

            await c.ExecuteAsync("UPDATE athletes SET profile = @next WHERE ref = 'a'", new { next = $"{read + 1}" }, transaction);
            await transaction.CommitAsync();
            return read + 1;
        });

        Assert.Equal((2, 11), (runs, written));
        Assert.Equal("11", outside.Value<string>("SELECT profile FROM athletes"));
    }

    private (Func<Task> Prepare, Func<Task> Act) Work(string work)
    {
        var (athletes, outcomes, versions, preferences, keys) = (new AthleteStore(store), new OutcomeStore(store), new VersionStore(store), new PreferenceStore(store), new AccessKeyStore(store));
        var (catalogue, rules) = (Text("a"), Text("b"));
        var key = new StoredKey("0123456789abcdef", "club", "recommend", null, Noon, null, null, null, new SaltedHash(new byte[16], new byte[32]), null, null);
        return work switch
        {
            "save a profile" => (Nothing, async () => Assert.True(await athletes.Save("club", "NM-04", "{}", Noon))),
            "save a profile again" => (() => athletes.Save("club", "NM-04", "{}", Noon), async () => Assert.False(await athletes.Save("club", "NM-04", "{\"a\":1}", Noon))),
            "remove a profile" => (() => athletes.Save("club", "NM-04", "{}", Noon), async () => Assert.True(await athletes.Remove("club", "NM-04"))),
            "save profiles once" => (Nothing, async () => Assert.True(await athletes.SaveOnce("squad", "club", [("A", "{}")], Noon))),
            "append a report" => (Nothing, async () => Assert.True((await outcomes.Append("club", Report("d-1", "{}")))!.Value.New)),
            "erase reports" => (() => outcomes.Append("club", Report("d-1", "{}")), async () => Assert.Equal(1, await outcomes.Erase("club", "NM-04", (_, _) => ("{}", null)))),
            "append a decision" => (Nothing, () => Append("d-1")),
            "erase decisions" => (() => Append("d-1"), Erase),
            "keep a version" => (Nothing, async () => Assert.True(await versions.Keep("club", KnowledgeKind.Rules, rules, null, Noon))),
            "discard a version" => (() => versions.Keep("club", KnowledgeKind.Rules, rules, null, Noon), async () => Assert.True(await versions.Discard("club", KnowledgeKind.Rules, rules.Version))),
            "put in force" => (async () =>
            {
                await versions.Keep("club", KnowledgeKind.Catalogue, catalogue, null, Noon);
                await versions.Keep("club", KnowledgeKind.Rules, rules, null, Noon);
            }, async () => Assert.NotNull(await versions.Publish("club", catalogue.Version, rules.Version, 0, Noon))),
            "keep what was learned" => (Nothing, async () => Assert.True(await preferences.Keep("club", new KeptPreference(null, "v", Noon, "{}", "{}")))),
            "put what was learned in force" => (() => preferences.Keep("club", new KeptPreference(null, "v", Noon, "{}", "{}")), () => preferences.Publish("club", null, "v", Noon)),
            "add a key" => (Nothing, async () => Assert.True(await keys.Add(key))),
            "rotate a key" => (() => keys.Add(key), async () => Assert.True(await keys.Rotate("club", key.KeyId, key.Secret, Noon, Noon))),
            "revoke a key" => (() => keys.Add(key), async () => Assert.True(await keys.Revoke("club", key.KeyId, Noon))),
            "add a protection key" => (Nothing, () => new ProtectionKeyStore(store).Add("name", "<key/>", Noon)),
            "add a dictionary" => (Nothing, () => new Packings(store).Use(new byte[4096])),
            "write a mark" => (Nothing, () => Task.Run(store.TryWrite)),
            _ => throw new ArgumentOutOfRangeException(nameof(work), work, null),
        };
    }

    private static Task Nothing() => Task.CompletedTask;

    private static KnowledgeText Text(string name) => KnowledgeText.Of([KeyValuePair.Create("file.json", Encoding.UTF8.GetBytes($$"""{"name":"{{name}}"}"""))]);

    private async Task Append(string id)
    {
        await using var log = new DecisionLog(store, new Packings(store));
        Assert.True(await log.Append([Record(id)], null));
    }

    private async Task Erase()
    {
        await using var log = new DecisionLog(store, new Packings(store));
        Assert.Equal(1, await log.Erase("club", "NM-04"));
    }

    private static StoredOutcome Report(string decision, string report) => new(decision, "squat", 0, Noon, "used", "NM-04", null, report, null, false, false);

    /// <summary>The server undoes the next so many transactions that write to a table. What a sequence has counted stays counted when a transaction is undone (9.17 "Sequence Manipulation Functions").</summary>
    private static void UndoneTimes(OutsideConnection outside, string table, int times, string code) => outside.Run($"""
        CREATE SEQUENCE tries;
        CREATE FUNCTION undo() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF nextval('tries') <= {times} THEN
                RAISE EXCEPTION 'in the way of another' USING ERRCODE = '{code}';
            END IF;
            RETURN NULL;
        END $$;
        CREATE TRIGGER undo AFTER INSERT OR UPDATE OR DELETE ON {table} FOR EACH STATEMENT EXECUTE FUNCTION undo();
        """);
}
