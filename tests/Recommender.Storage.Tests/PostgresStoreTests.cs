using Npgsql;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Testing.Postgres;

namespace Recommender.Storage.Tests;

public sealed class PostgresStoreTests : IDisposable
{
    private readonly string connectionString;

    public PostgresStoreTests()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        connectionString = PostgresServer.Shared.NewDatabase();
    }

    public void Dispose() => PostgresServer.Shared.Drop(connectionString);

    /// <summary>Every table and column of the SQLite file is here too, so that one SQL text serves both; a migration that forgot its twin fails here.</summary>
    [SkippableFact]
    public void A_new_store_has_every_table_and_column_that_the_embedded_one_has()
    {
        using var folder = new StoreFolder();
        folder.Open().Dispose();
        PostgresStore.Open(connectionString).Dispose();
        using var sqlite = folder.Outside();
        using var postgres = OutsideConnection.ToPostgres(connectionString);

        var embedded = sqlite.Rows("""
            SELECT lower(m.name) || '.' || lower(c.name) || CASE WHEN c."notnull" = 1 OR c.pk > 0 THEN ' required' ELSE '' END
            FROM sqlite_master m JOIN pragma_table_info(m.name) c
            WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite%' AND m.name NOT IN ('decisions_before_chain', 'SchemaVersions')
            """).Select(r => (string)r[0]!).Except(["decisions.position required"]).Order(StringComparer.Ordinal);
        var shared = postgres.Rows("""
            SELECT table_name || '.' || column_name || CASE WHEN is_nullable = 'NO' THEN ' required' ELSE '' END
            FROM information_schema.columns
            WHERE table_schema = 'public' AND table_name <> 'schemaversions'
            """).Select(r => (string)r[0]!).Order(StringComparer.Ordinal);

        Assert.Equal(embedded, shared);
    }

    [SkippableFact]
    public void An_existing_store_is_opened_as_it_is()
    {
        PostgresStore.Open(connectionString).Dispose();
        using var outside = OutsideConnection.ToPostgres(connectionString);
        outside.Run("INSERT INTO marks (name) VALUES ('mine')");
        var applied = outside.Value<long>("SELECT COUNT(*) FROM schemaversions");

        PostgresStore.Open(connectionString).Dispose();

        Assert.Equal(applied, outside.Value<long>("SELECT COUNT(*) FROM schemaversions"));
        Assert.Equal("mine", outside.Value<string>("SELECT name FROM marks"));
    }

    [SkippableFact]
    public async Task Replicas_that_open_a_new_database_at_once_make_its_tables_once()
    {
        var stores = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => PostgresStore.Open(connectionString))));

        foreach (var store in stores)
        {
            store.TryWrite();
            store.Dispose();
        }

        using var outside = OutsideConnection.ToPostgres(connectionString);
        Assert.Equal(outside.Value<long>("SELECT COUNT(DISTINCT scriptname) FROM schemaversions"), outside.Value<long>("SELECT COUNT(*) FROM schemaversions"));
    }

    [SkippableTheory]
    [InlineData("off", "on")]
    [InlineData("local", "on")]
    [InlineData("remote_apply", "remote_apply")]
    public void Every_session_flushes_what_it_commits_whatever_the_database_says(string database, string session)
    {
        PostgresServer.Shared.Execute($"ALTER DATABASE {new NpgsqlConnectionStringBuilder(connectionString).Database} SET synchronous_commit = {database}");
        using var store = PostgresStore.Open(connectionString);
        for (var i = 0; i < 3; i++)
        {
            // Given back and taken again: a session's own setting would be lost on the way.
            using var connection = store.Connect();
            using var command = connection.CreateCommand();
            command.CommandText = "SHOW synchronous_commit";
            Assert.Equal(session, command.ExecuteScalar());
        }
    }

    [SkippableFact]
    public void A_server_that_does_not_flush_is_refused()
    {
        using var careless = new PostgresServer(["fsync=off"]);

        var e = Assert.Throws<StoreUnavailableException>(() => PostgresStore.Open(careless.NewDatabase()));

        Assert.Contains("fsync", e.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_database_that_cannot_hold_every_text_is_refused()
    {
        PostgresServer.Shared.Execute("CREATE DATABASE latin TEMPLATE template0 ENCODING 'SQL_ASCII' LOCALE 'C'");

        var e = Assert.Throws<StoreUnavailableException>(() => PostgresStore.Open(PostgresServer.Shared.To("latin")));

        Assert.Contains("UTF8", e.Message, StringComparison.Ordinal);
        PostgresServer.Shared.Execute("DROP DATABASE latin");
    }

    /// <summary>A database may sort by a language's rules; lists come in the order of bytes all the same, as SQLite has them.</summary>
    [SkippableFact]
    public async Task Lists_come_in_one_order_on_both_engines_whatever_the_databases_language()
    {
        string[] refs = ["a", "B", "Á", "ab", "A", "ä", "Z", "_", "a b", "aB", "\U0001F3C3", "ﬀ", "10", "9"];
        PostgresServer.Shared.Execute("CREATE DATABASE german TEMPLATE template0 LOCALE_PROVIDER icu ICU_LOCALE 'de' LOCALE 'C.UTF-8'");
        using var folder = new StoreFolder();
        using var embedded = folder.Open();
        using var german = PostgresStore.Open(PostgresServer.Shared.To("german"));
        var lists = new List<IReadOnlyList<string>>();
        foreach (var store in new Store[] { embedded, german })
        {
            var athletes = new AthleteStore(store);
            await athletes.SaveOnce("mark", "club", refs.Select(r => (r, r)), DateTimeOffset.UnixEpoch);
            lists.Add(await athletes.ReadAll("club"));
        }

        Assert.Equal(lists[0], lists[1]);
        german.Dispose();
        PostgresServer.Shared.Execute("DROP DATABASE german WITH (FORCE)");
    }

    [SkippableFact]
    public void No_message_holds_the_password()
    {
        const string Secret = "qX7-secret";
        var wrong = new NpgsqlConnectionStringBuilder(connectionString) { Password = Secret }.ConnectionString;
        var nowhere = new NpgsqlConnectionStringBuilder(connectionString) { Password = Secret, Port = 1, Timeout = 1 }.ConnectionString;
        var without = new NpgsqlConnectionStringBuilder(connectionString) { Password = Secret, Database = "nothing" }.ConnectionString;
        string[] told =
        [
            .. new[] { wrong, nowhere, without }.Select(c => Assert.Throws<StoreUnavailableException>(() => PostgresStore.Open(c)).ToString()),
            .. new[] { $"Password=x;{Secret}", $"Host=h;Password=x;{Secret}=1", $"Host=h;Port={Secret}", Secret, "" }.Select(c => Assert.Throws<ArgumentException>(() => StoreAddress.OnPostgres(c)).ToString()),
            $"{StoreAddress.OnPostgres(wrong)}",
        ];

        Assert.All(told, text => Assert.DoesNotContain(Secret, text, StringComparison.Ordinal));
    }

    [SkippableFact]
    public void An_address_tells_whether_there_is_a_store()
    {
        var address = StoreAddress.OnPostgres(connectionString);
        Assert.False(address.HasStore());

        address.Open().Dispose();

        Assert.True(address.HasStore());
        Assert.Throws<StoreUnavailableException>(() => StoreAddress.OnPostgres("Host=127.0.0.1;Port=1;Database=x;Timeout=1").HasStore());
    }
}
