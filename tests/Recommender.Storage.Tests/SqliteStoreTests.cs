using System.Data.Common;
using DbUp;
using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests;

public sealed class SqliteStoreTests : IDisposable
{
    private static readonly string[] Tables = ["athletes", "decisions", "idempotency", "marks"];
    private readonly StoreFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void A_new_store_is_made_with_its_folder_and_all_tables()
    {
        var below = Path.Combine(folder.Path, "a", "b");
        using var store = SqliteStore.Open(below);

        using var outside = new OutsideConnection(Path.Combine(below, "recommender.db"));
        Assert.Empty(Tables.Except(outside.Rows("SELECT name FROM sqlite_master WHERE type = 'table'").Select(r => (string)r[0]!)));
    }

    [Fact]
    public void An_existing_store_is_opened_as_it_is()
    {
        SqliteStore.Open(folder.Path).Dispose();
        using var outside = new OutsideConnection(folder.File);
        outside.Run("INSERT INTO marks (name) VALUES ('mine')");
        var schema = outside.Rows("SELECT sql FROM sqlite_master ORDER BY name").Select(r => r[0]);
        var applied = outside.Value<long>("SELECT COUNT(*) FROM SchemaVersions");

        SqliteStore.Open(folder.Path).Dispose();

        Assert.Equal(schema, outside.Rows("SELECT sql FROM sqlite_master ORDER BY name").Select(r => r[0]));
        Assert.Equal(applied, outside.Value<long>("SELECT COUNT(*) FROM SchemaVersions"));
        Assert.Equal("mine", outside.Value<string>("SELECT name FROM marks"));
    }

    [Fact]
    public async Task Programs_that_open_a_new_folder_at_once_make_its_tables_once()
    {
        for (var round = 0; round < 5; round++)
        {
            var below = Path.Combine(folder.Path, $"{round}");
            var stores = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => SqliteStore.Open(below))));
            foreach (var store in stores)
            {
                store.TryWrite();
                store.Dispose();
            }

            using var outside = new OutsideConnection(Path.Combine(below, "recommender.db"));
            Assert.Equal(outside.Value<long>("SELECT COUNT(DISTINCT ScriptName) FROM SchemaVersions"), outside.Value<long>("SELECT COUNT(*) FROM SchemaVersions"));
        }
    }

    [Fact]
    public async Task A_store_of_the_first_version_is_brought_up_to_date_and_keeps_its_records_beside()
    {
        var first = DeployChanges.To.SqliteDatabase($"Data Source={folder.File};Pooling=False")
            .WithScriptsEmbeddedInAssembly(typeof(SqliteStore).Assembly, name => name.EndsWith("0001_decisions.sql", StringComparison.Ordinal))
            .WithVariablesDisabled().LogToNowhere().Build().PerformUpgrade();
        Assert.True(first.Successful);
        Assert.Single(first.Scripts);
        using (var outside = new OutsideConnection(folder.File))
        {
            outside.Run("""
                INSERT INTO decisions (organisation, decision_id, kind, created_at, status, engine, catalogue_version, rules_version, personal_hash, request, answer, content_hash, previous_hash, hash)
                VALUES ('club', 'old', 'recommendation', 0, 'answered', 1, 'c', 'r', x'', x'', x'0000000006', zeroblob(32), zeroblob(32), zeroblob(32))
                """);
        }

        using var store = SqliteStore.Open(folder.Path);
        await using var log = new DecisionLog(store, new Packings(store));

        Assert.Null(await log.Read("club", "old"));
        using (var outside = new OutsideConnection(folder.File))
        {
            Assert.Equal("old", outside.Value<string>("SELECT decision_id FROM decisions_before_chain"));
        }

        Assert.True(await log.Append([Record("new")], Claim()));
        Assert.Equal(new byte[32], (await log.Read("club", "new"))!.PreviousHash.ToArray());
    }

    [Fact]
    public void Every_connection_flushes_each_commit_writes_ahead_overwrites_what_is_deleted_and_keeps_to_references()
    {
        using var store = SqliteStore.Open(folder.Path);
        for (var i = 0; i < 3; i++)
        {
            // The second is new, the others come from the pool; after that all are new again.
            using var pooled = store.Connect();
            using var made = store.Connect();
            foreach (var connection in new[] { pooled, made })
            {
                // 2 is FULL. Source: sqlite.org/pragma.html#pragma_synchronous
                Assert.Equal(2L, Setting(connection, "synchronous"));
                Assert.Equal("wal", Setting(connection, "journal_mode"));
                Assert.Equal(1L, Setting(connection, "secure_delete"));
                Assert.Equal(1L, Setting(connection, "foreign_keys"));
                Assert.Equal(5000L, Setting(connection, "busy_timeout"));
            }

            if (i == 1)
            {
                store.CloseIdle();
            }
        }

        static object? Setting(DbConnection connection, string name)
        {
            using var command = connection.CreateCommand();
            command.CommandText = $"PRAGMA {name}";
            return command.ExecuteScalar();
        }
    }

    [Fact]
    public async Task The_write_ahead_log_does_not_grow_with_the_store()
    {
        using var store = SqliteStore.Open(folder.Path);
        await using var log = new DecisionLog(store, new Packings(store));
        var bytes = new byte[64 * 1024];
        new Random(1).NextBytes(bytes);
        for (var i = 0; i < 400; i++)
        {
            await log.Append([Record($"d-{i}") with { Answer = bytes }], null);
        }

        var length = new FileInfo(folder.WriteAheadLog).Length;
        Assert.True(length < 8 * 1024 * 1024, $"the log has {length} bytes after 400 answers of 64 KB; it is to be folded in from about 4 MB on.");
    }

    [Fact]
    public async Task Closing_folds_the_write_ahead_log_into_the_file()
    {
        using (var store = SqliteStore.Open(folder.Path))
        {
            await using var log = new DecisionLog(store, new Packings(store));
            await log.Append([Record()], null);
            await log.Read("club", "d-1");
        }

        Assert.False(File.Exists(folder.WriteAheadLog));
        Assert.Equal(["d-1"], Decisions.Chain.Walk(folder.File)["club"]);
    }

    [Fact]
    public void A_folder_that_is_a_file_cannot_be_opened()
    {
        var file = Path.Combine(folder.Path, "file");
        File.WriteAllText(file, "");

        var e = Assert.Throws<StoreUnavailableException>(() => SqliteStore.Open(file));

        Assert.Contains(file, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_no_database_cannot_be_opened_and_is_left_alone()
    {
        var text = string.Concat(Enumerable.Repeat("This is a letter, not a database. ", 100));
        File.WriteAllText(folder.File, text);

        Assert.Throws<StoreUnavailableException>(() => SqliteStore.Open(folder.Path));

        Assert.Equal(text, File.ReadAllText(folder.File));
    }

    [Fact]
    public void A_database_whose_tables_are_another_programs_cannot_be_opened()
    {
        using (var outside = new OutsideConnection(folder.File))
        {
            outside.Run("CREATE TABLE decisions (id INTEGER)");
        }

        Assert.Throws<StoreUnavailableException>(() => SqliteStore.Open(folder.Path));
    }

    [Fact]
    public void Writing_a_mark_again_and_again_keeps_one()
    {
        using var store = SqliteStore.Open(folder.Path);
        store.TryWrite();
        store.TryWrite();

        using var outside = new OutsideConnection(folder.File);
        Assert.Equal(1L, outside.Value<long>("SELECT COUNT(*) FROM marks"));
    }
}
