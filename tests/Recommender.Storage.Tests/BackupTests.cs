using Recommender.Storage.Athletes;
using Recommender.Storage.Backups;
using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests;

/// <summary>Backups of either engine, restored to either.</summary>
public abstract class BackupTests(Engine from, Engine to) : IDisposable
{
    private readonly StorePlace source = from.NewPlace();
    private readonly StorePlace target = to.NewPlace();
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-backup-").FullName;

    private string BackupFile => Path.Combine(folder, "b.backup");

    public void Dispose()
    {
        source.Dispose();
        target.Dispose();
        Directory.Delete(folder, recursive: true);
        GC.SuppressFinalize(this);
    }

    [SkippableFact]
    public async Task A_restored_store_holds_every_row_and_goes_on_where_the_backup_was_made()
    {
        using var store = source.Open();
        await Fill(store);

        StoreBackup.Make(store, BackupFile);
        using var restored = target.Open();
        var chains = await StoreBackup.Restore(BackupFile, restored);

        Assert.Equal([("academy", 1L), ("club", 31L)], chains.Select(c => (c.Organisation, c.Check.Checked)));
        Assert.All(chains, c => Assert.Null(c.Check.FirstBroken));
        using (var before = source.Outside())
        using (var after = target.Outside())
        {
            Assert.Equal(Rows(before), Rows(after));
            Assert.NotEmpty(Rows(after));
        }

        var packings = new Packings(restored);
        await using var log = new DecisionLog(restored, packings);
        Assert.Equal("""{"name":"Zoë"}""", await new AthleteStore(restored).Read("club", "B"));
        Assert.True((await log.Read("club", "erased"))!.PersonalDataErased);
        Assert.Equal("{}"u8.ToArray(), (await log.ReadClaim("club", "key-1", Noon))!.Response.ToArray());
        await packings.Use("another dictionary, numbered anew"u8.ToArray());
        Assert.True(await log.Append([Record("after")], null));
        Assert.Equal(32, (await log.Read("club", "after"))!.Sequence);
        Assert.Null((await new ChainVerifier(restored, packings).Verify("club")).FirstBroken);
    }

    /// <summary>While eight callers append: the backup is one moment of the store, and nothing that was answered before it began is missing.</summary>
    [SkippableFact]
    public async Task A_backup_is_made_while_the_store_is_used()
    {
        using var store = source.Open();
        await using var log = new DecisionLog(store, new Packings(store));
        using var over = new CancellationTokenSource();
        var answered = 0;
        var callers = Enumerable.Range(0, 8).Select(caller => Task.Run(async () =>
        {
            for (var i = 0; !over.IsCancellationRequested; i++)
            {
                await log.Append([Record($"{caller}/{i}")], null);
                Interlocked.Increment(ref answered);
            }
        })).ToArray();
        while (Volatile.Read(ref answered) < 200)
        {
            await Task.Delay(5);
        }

        var before = Volatile.Read(ref answered);
        StoreBackup.Make(store, BackupFile);
        var atOnce = Volatile.Read(ref answered);
        await over.CancelAsync();
        await Task.WhenAll(callers);
        using var restored = target.Open();
        var club = Assert.Single(await StoreBackup.Restore(BackupFile, restored));

        Assert.Null(club.Check.FirstBroken);
        Assert.InRange(club.Check.Checked, before, atOnce + 8);
    }

    [SkippableFact]
    public async Task A_store_that_holds_anything_is_not_restored_into()
    {
        using var store = source.Open();
        await Fill(store);
        StoreBackup.Make(store, BackupFile);
        using var used = target.Open();
        await new AthleteStore(used).Save("club", "A", "{}", Noon);

        var e = await Assert.ThrowsAsync<InvalidBackupException>(() => StoreBackup.Restore(BackupFile, used));

        Assert.Contains("athletes", e.Message, StringComparison.Ordinal);
        Assert.Single(await new AthleteStore(used).ReadAll("club"));
    }

    [SkippableFact]
    public async Task A_backup_that_was_tampered_with_is_named_and_not_restored()
    {
        using var store = source.Open();
        await Fill(store);
        StoreBackup.Make(store, BackupFile);
        using (var outside = new OutsideConnection(BackupFile))
        {
            outside.Run("UPDATE decisions SET status = 'referred' WHERE sequence = 7 AND organisation = 'club'");
        }

        using var restored = target.Open();
        var chains = await StoreBackup.Restore(BackupFile, restored);

        Assert.Equal(7, chains.Single(c => c.Organisation == "club").Check.FirstBroken!.Position);
        using var after = target.Outside();
        Assert.Empty(Rows(after));
    }

    [SkippableFact]
    public async Task What_is_no_backup_or_a_newer_programs_is_told_and_nothing_is_restored()
    {
        using var restored = target.Open();
        await File.WriteAllTextAsync(BackupFile, string.Concat(Enumerable.Repeat("a letter", 1000)));
        await Assert.ThrowsAsync<InvalidBackupException>(() => StoreBackup.Restore(BackupFile, restored));
        await Assert.ThrowsAsync<InvalidBackupException>(() => StoreBackup.Restore(BackupFile + "-not-there", restored));

        using var store = source.Open();
        var newer = Path.Combine(folder, "newer");
        StoreBackup.Make(store, newer);
        using (var outside = new OutsideConnection(newer))
        {
            outside.Run("INSERT INTO SchemaVersions (ScriptName, Applied) VALUES ('Recommender.Storage.Migrations.9999_future.sql', 'now')");
        }

        var e = await Assert.ThrowsAsync<InvalidBackupException>(() => StoreBackup.Restore(newer, restored));
        Assert.Contains("9999_future", e.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_file_that_is_there_is_left_alone_and_a_new_one_is_its_owners_only()
    {
        using var store = source.Open();
        File.WriteAllText(BackupFile, "mine");
        Assert.Throws<IOException>(() => StoreBackup.Make(store, BackupFile));
        Assert.Equal("mine", File.ReadAllText(BackupFile));
        File.Delete(BackupFile);

        StoreBackup.Make(store, BackupFile);

        Assert.Equal([BackupFile], Directory.GetFileSystemEntries(folder));
        Assert.True(OperatingSystem.IsWindows() || File.GetUnixFileMode(BackupFile) == (UnixFileMode.UserRead | UnixFileMode.UserWrite));
    }

    private static async Task Fill(Store store)
    {
        var packings = new Packings(store);
        await packings.Use("answers repeat this"u8.ToArray());
        await using var log = new DecisionLog(store, packings);
        await log.Append([.. Enumerable.Range(0, 30).Select(i => Record($"d-{i}"))], Claim(response: "{}").About(["NM-05"]));
        await log.Append([Record("erased") with { AthleteRef = "NM-09" }], null);
        await log.Append([Record("other", "academy")], null);
        await log.Erase("club", "NM-09");
        await new AthleteStore(store).SaveOnce("squad", "club", [("A", "{}"), ("B", """{"name":"Zoë"}""")], Noon);
    }

    /// <summary>Every cell of every table that both engines have, as text.</summary>
    private static List<string> Rows(OutsideConnection outside)
    {
        (string Table, string Columns)[] tables =
        [
            ("decisions", "organisation, sequence, decision_id, kind, created_at, status, top, engine, catalogue_version, rules_version, preference_version, athlete_ref, coach, personal, personal_salt, personal_hash, previous_hash, hash, request, answer"),
            ("decision_exercises", "organisation, exercise, created_at, sequence"), ("chain_heads", "organisation, sequence, hash"), ("dictionaries", "number, hash, content"),
            ("idempotency", "organisation, key, body_hash, response, status, created_at"), ("idempotency_athletes", "organisation, key, athlete_ref"),
            ("athletes", "organisation, ref, profile, updated_at"), ("marks", "name"),
        ];
        return [.. tables.SelectMany(t => outside.Rows($"SELECT {t.Columns} FROM {t.Table}").Select(r => $"{t.Table}: {string.Join(" | ", r.Select(Cell))}").Order(StringComparer.Ordinal))];
    }

    private static string Cell(object? cell) => cell switch
    {
        byte[] bytes => Convert.ToHexString(bytes),
        DBNull => "null",
        var value => FormattableString.Invariant($"{value}"),
    };
}

public sealed class SqliteToSqliteBackupTests() : BackupTests(Engine.Sqlite, Engine.Sqlite);

public sealed class SqliteToPostgresBackupTests() : BackupTests(Engine.Sqlite, Engine.Postgres);

public sealed class PostgresToSqliteBackupTests() : BackupTests(Engine.Postgres, Engine.Sqlite);

public sealed class PostgresToPostgresBackupTests() : BackupTests(Engine.Postgres, Engine.Postgres);
