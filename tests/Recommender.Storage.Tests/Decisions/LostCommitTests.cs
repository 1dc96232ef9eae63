using Recommender.Storage.Decisions;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>The link to the server breaks while it commits: what the caller is told is what is there, and nothing is stored twice.</summary>
public sealed class LostCommitTests : IAsyncLifetime, IDisposable
{
    private readonly StoreDatabase place = new();
    private readonly FlakyLink link;
    private readonly PostgresStore store;
    private readonly DecisionLog log;

    public LostCommitTests()
    {
        link = new FlakyLink(place.ConnectionString);
        store = PostgresStore.Open(link.ConnectionString);
        log = new DecisionLog(store, new Packings(store));
    }

    public Task InitializeAsync() => log.Append([Record("first")], null).AsTask();

    public async Task DisposeAsync() => await log.DisposeAsync();

    public void Dispose()
    {
        store.Dispose();
        link.Dispose();
        place.Dispose();
    }

    [SkippableFact]
    public async Task A_commit_whose_answer_was_lost_is_found_and_answered_as_stored()
    {
        link.BreakNextCommit(FlakyLink.Break.BeforeTheAnswerArrives);

        Assert.True(await log.Append([Record("second")], Claim(response: "answer")));

        Assert.True(await log.Append([Record("third")], null));
        Assert.Equal(["first", "second", "third"], Chains());
        Assert.Equal("answer"u8.ToArray(), (await log.ReadClaim("club", "key-1", Noon))!.Response.ToArray());
    }

    [SkippableFact]
    public async Task A_key_alone_whose_answer_was_lost_is_found_too()
    {
        link.BreakNextCommit(FlakyLink.Break.BeforeTheAnswerArrives);

        Assert.True(await log.Claim("club", Claim(response: "needs")));

        Assert.False(await log.Claim("club", Claim(response: "other")));
    }

    [SkippableFact]
    public async Task A_commit_that_never_arrived_is_told_as_not_stored_and_can_be_sent_again()
    {
        link.BreakNextCommit(FlakyLink.Break.BeforeTheCommitArrives);

        var told = await Assert.ThrowsAsync<StoreUnavailableException>(async () => await log.Append([Record("second")], Claim()));

        Assert.False(told.MayBeStored);
        Assert.Null(await log.Read("club", "second"));
        Assert.True(await log.Append([Record("second")], Claim()));
        Assert.Equal(["first", "second"], Chains());
    }

    [SkippableTheory]
    [InlineData(FlakyLink.Break.BeforeTheAnswerArrives)]
    [InlineData(FlakyLink.Break.BeforeTheCommitArrives)]
    public async Task When_nobody_can_tell_the_caller_hears_that_it_may_be_stored_and_the_key_settles_it(FlakyLink.Break where)
    {
        link.BreakNextCommit(where, forGood: true);

        var told = await Assert.ThrowsAsync<StoreUnavailableException>(async () => await log.Append([Record("second")], Claim(response: "second")));

        Assert.True(told.MayBeStored);
        link.Mend();
        Assert.Equal(where == FlakyLink.Break.BeforeTheCommitArrives, await log.Append([Record("again")], Claim(response: "again")));
        Assert.Equal(where == FlakyLink.Break.BeforeTheCommitArrives ? ["first", "again"] : ["first", "second"], Chains());
    }

    private List<string> Chains()
    {
        using var outside = place.Outside();
        return Chain.Walk(outside)["club"];
    }
}
