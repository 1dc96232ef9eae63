using Recommender.Answers.Access;
using Recommender.Storage;
using Recommender.Storage.Access;
using Recommender.Storage.Decisions;

namespace Recommender.Answers.Tests.Access;

/// <summary>Keys on a real store, asked by two programs (two instances), with a clock that the test moves.</summary>
public sealed class AccessKeysTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("recommender-keys-");
    private readonly MovedClock clock = new();
    private readonly SqliteStore store;
    private readonly AccessKeys keys;
    private readonly AccessKeys elsewhere;

    public AccessKeysTests()
    {
        store = SqliteStore.Open(folder.FullName);
        keys = new AccessKeys(new AccessKeyStore(store), clock);
        elsewhere = new AccessKeys(new AccessKeyStore(store), clock);
    }

    public void Dispose()
    {
        store.Dispose();
        folder.Delete(recursive: true);
    }

    [Fact]
    public async Task A_key_stands_for_its_organisation_and_scopes()
    {
        var (secret, kept) = (await keys.Create("club", Scopes.Recommend | Scopes.Curate, "field laptop", null))!.Value;

        var caller = await elsewhere.Check(KeySecret.Read(secret.Reveal())!);

        Assert.Equal(("club", Scopes.Recommend | Scopes.Curate, kept.KeyId), (caller!.Organisation, caller.Scopes, caller.KeyId));
        Assert.True(caller.May(Scopes.Curate));
        Assert.False(caller.May(Scopes.Curate | Scopes.Admin));
        Assert.Null(await keys.Check(KeySecret.For(kept.KeyId)));
        Assert.Null(await keys.Check(KeySecret.Make()));
    }

    [Fact]
    public async Task An_ended_key_is_refused_at_once_here_and_within_two_seconds_elsewhere()
    {
        var (secret, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        Assert.NotNull(await elsewhere.Check(secret));

        Assert.True(await keys.Revoke("club", kept.KeyId));

        Assert.Null(await keys.Check(secret));
        clock.Move(AccessKeys.Remembered);
        Assert.Null(await elsewhere.Check(secret));
        Assert.False(await keys.Revoke("club", kept.KeyId));
    }

    [Fact]
    public async Task A_key_ends_at_its_end()
    {
        var (secret, _) = (await keys.Create("club", Scopes.Recommend, null, TimeSpan.FromDays(1)))!.Value;

        clock.Move(TimeSpan.FromDays(1) - TimeSpan.FromSeconds(1));
        Assert.NotNull(await keys.Check(secret));
        Assert.True(await keys.AnyUsable());
        clock.Move(TimeSpan.FromSeconds(1));
        Assert.Null(await keys.Check(secret));
        Assert.False(await keys.AnyUsable());
        Assert.True(await keys.AnyIssued());
    }

    [Fact]
    public async Task The_secret_before_holds_for_the_overlap_alone_and_one_from_before_that_not_at_all()
    {
        var (first, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        var (second, _) = (await keys.Rotate("club", kept.KeyId, TimeSpan.FromMinutes(10)))!.Value;
        Assert.NotNull(await keys.Check(first));
        Assert.NotNull(await keys.Check(second));
        clock.Move(TimeSpan.FromMinutes(10));
        Assert.Null(await keys.Check(first));

        var (third, _) = (await keys.Rotate("club", kept.KeyId, TimeSpan.FromMinutes(10)))!.Value;
        var (fourth, _) = (await keys.Rotate("club", kept.KeyId, TimeSpan.Zero))!.Value;

        Assert.Null(await keys.Check(second));
        Assert.Null(await keys.Check(third));
        Assert.NotNull(await keys.Check(fourth));
    }

    [Fact]
    public async Task Another_organisation_cannot_see_change_or_end_a_key()
    {
        var (secret, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;

        Assert.Empty(await keys.List("academy"));
        Assert.Null(await keys.One("academy", kept.KeyId));
        Assert.Null(await keys.Rotate("academy", kept.KeyId, TimeSpan.Zero));
        Assert.False(await keys.Revoke("academy", kept.KeyId));
        Assert.NotNull(await keys.Check(secret));
    }

    [Fact]
    public async Task A_sign_in_ends_with_the_key_and_with_a_change_of_its_secret()
    {
        var (_, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        var mark = (await keys.Mark(kept.KeyId))!;
        Assert.NotNull(await elsewhere.Still(kept.KeyId, mark));

        await keys.Rotate("club", kept.KeyId, TimeSpan.FromMinutes(10));
        clock.Move(AccessKeys.Remembered);

        Assert.Null(await elsewhere.Still(kept.KeyId, mark));
        var later = (await keys.Mark(kept.KeyId))!;
        Assert.NotNull(await elsewhere.Still(kept.KeyId, later));
        await keys.Revoke("club", kept.KeyId);
        clock.Move(AccessKeys.Remembered);
        Assert.Null(await elsewhere.Still(kept.KeyId, later));
    }

    [Fact]
    public async Task Nobody_is_remembered_from_guessing_and_the_store_says_that_keys_were_made_even_when_all_are_ended()
    {
        Assert.False(await elsewhere.AnyIssued());
        var (_, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        await keys.Revoke("club", kept.KeyId);
        clock.Move(AccessKeys.Remembered);

        Assert.True(await elsewhere.AnyIssued());
        Assert.False(await elsewhere.AnyUsable());
    }

    [Fact]
    public async Task Whoever_may_not_look_is_refused_but_for_keys_that_were_found_before()
    {
        var (secret, kept) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        var asked = 0;

        Assert.Null(await elsewhere.Check(secret, Never));
        Assert.NotNull(await elsewhere.Check(secret, Always));
        Assert.Equal(2, asked);
        Assert.NotNull(await elsewhere.Check(secret, Never));
        clock.Move(AccessKeys.Remembered);
        Assert.NotNull(await elsewhere.Check(secret, Never));
        Assert.Null(await elsewhere.Check(KeySecret.For(kept.KeyId), Never));
        Assert.Equal(2, asked);

        // What was looked for and is not there is asked about each time.
        var madeUp = KeySecret.Make();
        Assert.Null(await elsewhere.Check(madeUp, Always));
        Assert.Null(await elsewhere.Check(madeUp, Always));
        Assert.Equal(4, asked);

        bool Never() => ++asked == 0;

        bool Always() => ++asked > 0;
    }

    [Fact]
    public async Task A_key_that_was_found_before_stays_known_while_the_store_is_away()
    {
        var (secret, _) = (await keys.Create("club", Scopes.Recommend, null, null))!.Value;
        Assert.NotNull(await keys.Check(secret));
        clock.Move(AccessKeys.Remembered);
        Run("ALTER TABLE access_keys RENAME TO away");
        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await keys.Check(secret, () => false));

        Run("ALTER TABLE away RENAME TO access_keys");

        Assert.NotNull(await keys.Check(secret, () => false));

        void Run(string sql) => store.UseNow(c =>
        {
            using var command = c.CreateCommand();
            command.CommandText = sql;
            return command.ExecuteNonQuery();
        });
    }

    [Theory]
    [InlineData("local", true)]
    [InlineData("athletics-club-7", true)]
    [InlineData("", false)]
    [InlineData(null, false)]
    [InlineData("Club", false)]
    [InlineData("-club", false)]
    [InlineData("club-", false)]
    [InlineData("a/b", false)]
    [InlineData("clüb", false)]
    [InlineData("aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", false)]
    public void A_name_of_an_organisation_is_plain(string? name, bool fits) => Assert.Equal(fits, AccessKeys.IsOrganisation(name));

    private sealed class MovedClock : TimeProvider
    {
        private DateTimeOffset now = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override DateTimeOffset GetUtcNow() => now;

        public override long GetTimestamp() => now.UtcTicks;

        public void Move(TimeSpan time) => now += time;
    }
}
