using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

public sealed class TroubledStoreTests
{
    [SmallDiskFact]
    public async Task A_full_disk_makes_the_store_unavailable_stores_no_half_and_it_works_again_with_room()
    {
        using var disk = new SmallDisk("3m");
        using var store = SqliteStore.Open(disk.Path);
        await using var log = new DecisionLog(store, new Packings(store));
        var answered = new List<string>();
        var refused = 0;
        for (var i = 0; refused < 3; i++)
        {
            Assert.True(i < 2000, "the disk never filled.");
            try
            {
                await log.Append([Big($"{i}/a"), Big($"{i}/b")], Claim($"key-{i}"));
                answered.AddRange([$"{i}/a", $"{i}/b"]);
            }
            catch (StoreUnavailableException)
            {
                refused++;
                Assert.Null(await log.ReadClaim("club", $"key-{i}", Noon));
            }
        }

        Assert.NotEmpty(answered);
        Assert.NotNull(await log.Read("club", answered[0]));
        Assert.Throws<StoreUnavailableException>(() => { for (var i = 0; i < 100; i++) { store.TryWrite(); } });

        disk.Resize("64m");

        store.TryWrite();
        await log.Append([Big("after")], null);
        Assert.Equal([.. answered, "after"], Chain.Walk(disk.File)["club"]);
    }

    [SmallDiskFact]
    public async Task A_read_only_disk_cannot_be_opened_and_nothing_is_lost()
    {
        using var disk = new SmallDisk("8m");
        using (var store = SqliteStore.Open(disk.Path))
        {
            await using var log = new DecisionLog(store, new Packings(store));
            await log.Append([Record("d-1")], null);
        }

        disk.MakeReadOnly();
        Assert.Throws<StoreUnavailableException>(() => SqliteStore.Open(disk.Path));
        disk.MakeWritable();

        using (var store = SqliteStore.Open(disk.Path))
        {
            await using var log = new DecisionLog(store, new Packings(store));
            await log.Append([Record("d-2")], null);
        }

        Assert.Equal(["d-1", "d-2"], Chain.Walk(disk.File)["club"]);
    }

    [SmallDiskFact]
    public async Task A_disk_that_was_read_only_for_a_while_is_written_again_without_a_restart()
    {
        using var disk = new SmallDisk("8m");
        using var store = SqliteStore.Open(disk.Path);
        store.CloseIdle();
        disk.MakeReadOnly();
        var log = new DecisionLog(store, new Packings(store));
        Assert.Throws<StoreUnavailableException>(store.TryWrite);
        await Assert.ThrowsAsync<StoreUnavailableException>(() => new AthleteStore(store).SaveOnce("mark", "club", [], Noon));
        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await log.Append([Record("d-1")], null));

        disk.MakeWritable();

        store.TryWrite();
        Assert.True(await new AthleteStore(store).SaveOnce("mark", "club", [], Noon));
        Assert.True(await log.Append([Record("d-2")], null));
        await log.DisposeAsync();
        Assert.Equal(["d-2"], Chain.Walk(disk.File)["club"]);
    }

    [Fact]
    public async Task A_store_that_went_away_is_unavailable_for_every_call_and_back_when_it_comes_back()
    {
        await using var open = OpenLog.OnNewStore(Engine.Sqlite);
        await open.Log.Append([Record("d-1")], Claim());
        open.Outside.Run("ALTER TABLE decisions RENAME TO decisions_away; ALTER TABLE idempotency RENAME TO idempotency_away; ALTER TABLE athletes RENAME TO athletes_away; ALTER TABLE marks RENAME TO marks_away");
        var athletes = new AthleteStore(open.Store);

        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await open.Log.Append([Record("d-2")], null));
        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await open.Log.Append([Record("d-3")], Claim("other")));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => open.Log.Read("club", "d-1"));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => open.Log.ReadClaim("club", "key-1", Noon));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => athletes.ReadAll("club"));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => athletes.SaveOnce("mark", "club", [], Noon));
        Assert.Throws<StoreUnavailableException>(open.Store.TryWrite);

        open.Outside.Run("ALTER TABLE decisions_away RENAME TO decisions; ALTER TABLE idempotency_away RENAME TO idempotency; ALTER TABLE athletes_away RENAME TO athletes; ALTER TABLE marks_away RENAME TO marks");

        Assert.True(await open.Log.Append([Record("d-4")], null));
        open.Store.TryWrite();
        Assert.Equal(["d-1", "d-4"], Chain.Walk(open.Outside)["club"]);
    }

    [Fact]
    public async Task A_chain_that_was_shortened_from_outside_goes_on_from_its_new_end()
    {
        await using var open = OpenLog.OnNewStore(Engine.Sqlite);
        await open.Log.Append([Record("d-1")], null);
        await open.Log.Append([Record("d-2")], null);
        // As when a copy is restored under a running program: the same file, older content.
        open.Outside.Run("DELETE FROM decisions WHERE decision_id = 'd-2'; UPDATE chain_heads SET (sequence, hash) = (SELECT sequence, hash FROM decisions)");

        await open.Log.Append([Record("d-3")], null);

        Assert.Equal(["d-1", "d-3"], Chain.Walk(open.Outside)["club"]);
    }

    [Fact]
    public async Task A_last_record_that_was_cut_off_is_still_missed_after_more_were_appended()
    {
        await using var open = OpenLog.OnNewStore(Engine.Sqlite);
        await open.Log.Append([Record("d-1"), Record("d-2")], null);
        open.Outside.Run("DELETE FROM decisions WHERE decision_id = 'd-2'");

        await open.Log.Append([Record("d-3")], null);

        var broken = (await new ChainVerifier(open.Store, new Packings(open.Store)).Verify("club")).FirstBroken!;
        Assert.Equal(2, broken.Position);
        Assert.Contains("missing", broken.Problem, StringComparison.Ordinal);
    }

    /// <summary>A record of a few pages that packing cannot shrink.</summary>
    private static Domain.Decisions.DecisionRecord Big(string id)
    {
        var bytes = new byte[16 * 1024];
        new Random(id.Length).NextBytes(bytes);
        return Record(id) with { Answer = bytes };
    }
}
