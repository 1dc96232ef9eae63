using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>What happens to appends that share a commit. A foreign write lock makes them wait, so that they share it for certain.</summary>
public abstract class SharedCommitTests(Engine engine) : OpenLogTests(engine)
{
    [SkippableFact]
    public async Task A_hundred_waiting_appends_share_two_commits_at_most()
    {
        Place.Flush(Outside);
        Task<bool>[] appends;
        using (Outside.Lock())
        {
            appends = [.. Enumerable.Range(0, 100).Select(i => Log.Append([Record($"d-{i}")], null).AsTask())];
            Assert.All(appends, a => Assert.False(a.IsCompleted));
        }

        await Task.WhenAll(appends);

        // The writer may have had the first few in hand when the lock was met; the rest came together.
        Assert.InRange(Place.Commits(Outside), 1, 2);
        Assert.Equal(100, Chains()["club"].Count);
    }

    [SkippableFact]
    public async Task One_append_after_another_makes_a_commit_each()
    {
        Place.Flush(Outside);
        for (var i = 0; i < 5; i++)
        {
            await Log.Append([Record($"d-{i}")], null);
        }

        Assert.Equal(5, Place.Commits(Outside));
    }

    [SkippableFact]
    public async Task One_with_an_id_used_before_fails_alone_and_leaves_no_gap()
    {
        await Log.Append([Record("old")], null);
        Task<bool>[] appends;
        using (Outside.Lock())
        {
            appends = [.. Enumerable.Range(0, 20).Select(i => Log.Append(i == 10 ? [Record("new-10"), Record("old")] : [Record($"new-{i}")], null).AsTask())];
        }

        await Assert.ThrowsAsync<ArgumentException>(() => appends[10]);
        await Task.WhenAll(appends.Where((_, i) => i != 10));
        Assert.Equal(["old", .. Enumerable.Range(0, 20).Where(i => i != 10).Select(i => $"new-{i}")], Chains()["club"]);
    }

    [SkippableFact]
    public async Task One_whose_hash_is_no_hash_fails_alone_and_the_log_lives_on()
    {
        Task<bool>[] appends;
        using (Outside.Lock())
        {
            appends = [.. Enumerable.Range(0, 6).Select(i => Log.Append([i == 3 ? Record("odd") with { PersonalHash = new byte[40] } : Record($"d-{i}")], null).AsTask())];
        }

        await Assert.ThrowsAsync<ArgumentException>(() => appends[3]);
        await Task.WhenAll(appends.Where((_, i) => i != 3));
        Assert.True(await Log.Append([Record("after")], null));
        Assert.Equal(["d-0", "d-1", "d-2", "d-4", "d-5", "after"], Chains()["club"]);
    }

    [SkippableFact]
    public async Task A_key_taken_in_the_same_commit_stores_nothing_and_does_not_move_the_chain()
    {
        Task<bool>[] appends;
        using (Outside.Lock())
        {
            appends = [.. Enumerable.Range(0, 9).Select(i => Log.Append([Record($"d-{i}")], i is 2 or 5 or 7 ? Claim("same", response: $"answer {i}") : null).AsTask())];
        }

        bool[] stored = [true, true, true, true, true, false, true, false, true];
        Assert.Equal(stored, await Task.WhenAll(appends));
        Assert.Equal(["d-0", "d-1", "d-2", "d-3", "d-4", "d-6", "d-8"], Chains()["club"]);
        Assert.Equal("answer 2"u8.ToArray(), (await Log.ReadClaim("club", "same", Noon))!.Response.ToArray());
    }

    [SkippableFact]
    public async Task A_claim_is_given_back_when_its_records_cannot_be_stored()
    {
        await Log.Append([Record("old")], null);

        await Assert.ThrowsAsync<ArgumentException>(async () => await Log.Append([Record("old")], Claim("mine")));

        Assert.Null(await Log.ReadClaim("club", "mine", Noon.AddDays(-1)));
        Assert.True(await Log.Append([Record("new")], Claim("mine")));
    }

    [SkippableFact]
    public async Task What_would_fill_memory_is_refused_while_the_store_is_held_and_taken_again_after()
    {
        var big = new byte[10 * 1024 * 1024];
        new Random(1).NextBytes(big);
        List<Task<bool>> waiting;
        using (Outside.Lock())
        {
            waiting = [.. Enumerable.Range(0, 6).Select(i => Log.Append([Record($"big-{i}") with { Request = big }], null).AsTask())];
            await Assert.ThrowsAsync<StoreUnavailableException>(async () => await Log.Append([Record("big-6") with { Request = big }], null));
            waiting.Add(Log.Append([Record("small")], null).AsTask());
        }

        Assert.All(await Task.WhenAll(waiting), Assert.True);
        Assert.True(await Log.Append([Record("big-6") with { Request = big }], null));
        Assert.Equal(8, Chains()["club"].Count);
    }

    [SkippableFact]
    public async Task Closing_the_log_stores_what_waits()
    {
        Task<bool>[] appends;
        Task closing;
        using (Outside.Lock())
        {
            appends = [.. Enumerable.Range(0, 30).Select(i => Log.Append([Record($"d-{i}")], null).AsTask())];
            closing = Log.DisposeAsync().AsTask();
            Assert.False(closing.IsCompleted);
        }

        await closing;

        Assert.All(await Task.WhenAll(appends), Assert.True);
        Assert.Equal(30, Chains()["club"].Count);
    }

    [SkippableFact]
    public async Task A_lock_that_is_held_too_long_makes_the_store_unavailable_and_nothing_is_stored_later()
    {
        using (Outside.Lock())
        {
            await Assert.ThrowsAsync<StoreUnavailableException>(async () => await Log.Append([Record("late")], null));
        }

        Assert.True(await Log.Append([Record("next")], null));
        Assert.Equal(["next"], Chains()["club"]);
    }
}
