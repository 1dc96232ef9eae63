using Recommender.Storage.Athletes;

namespace Recommender.Storage.Tests.Athletes;

public abstract class AthleteStoreTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    private readonly StorePlace place;
    private readonly Store store;
    private readonly AthleteStore athletes;

    protected AthleteStoreTests(Engine engine)
    {
        place = engine.NewPlace();
        store = place.Open();
        athletes = new AthleteStore(store);
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        store.Dispose();
        place.Dispose();
    }

    [SkippableFact]
    public async Task Profiles_come_back_by_ref_as_they_were_saved()
    {
        await athletes.SaveOnce("squad", "club", [("B", """{"name":"Zoë"}"""), ("A", "{}"), ("a", """{"n":1}""")], Noon);

        Assert.Equal(["{}", """{"name":"Zoë"}""", """{"n":1}"""], await athletes.ReadAll("club"));
        Assert.Equal("""{"name":"Zoë"}""", await athletes.Read("club", "B"));
    }

    [SkippableFact]
    public async Task What_is_not_there_is_null_and_an_organisation_without_athletes_has_none()
    {
        Assert.Null(await athletes.Read("club", "A"));
        Assert.Empty(await athletes.ReadAll("club"));
    }

    [SkippableFact]
    public async Task Another_organisation_sees_none_of_them()
    {
        await athletes.SaveOnce("squad", "club", [("A", "{}")], Noon);

        Assert.Null(await athletes.Read("academy", "A"));
        Assert.Empty(await athletes.ReadAll("academy"));
    }

    [SkippableFact]
    public async Task A_mark_saves_once_and_later_calls_change_nothing()
    {
        Assert.True(await athletes.SaveOnce("squad", "club", [("A", "first")], Noon));
        Assert.False(await athletes.SaveOnce("squad", "club", [("A", "second"), ("B", "second")], Noon));

        Assert.Equal(["first"], await athletes.ReadAll("club"));
    }

    [SkippableFact]
    public async Task Of_many_who_save_under_one_mark_at_once_one_does()
    {
        var saved = await Task.WhenAll(Enumerable.Range(0, 8).Select(i => Task.Run(() => athletes.SaveOnce("squad", "club", [("A", $"{i}")], Noon))));

        Assert.Single(saved, true);
        Assert.Equal($"{Array.IndexOf(saved, true)}", await athletes.Read("club", "A"));
    }

    [SkippableFact]
    public async Task Another_mark_replaces_a_profile_of_the_same_ref()
    {
        await athletes.SaveOnce("one", "club", [("A", "first")], Noon);
        Assert.True(await athletes.SaveOnce("two", "club", [("A", "second")], Noon));

        Assert.Equal(["second"], await athletes.ReadAll("club"));
    }

    [SkippableFact]
    public async Task A_profile_that_cannot_be_saved_leaves_the_mark_and_the_others_unsaved()
    {
        await Assert.ThrowsAnyAsync<Exception>(() => athletes.SaveOnce("squad", "club", [("A", "first"), ("B", null!)], Noon));

        Assert.Empty(await athletes.ReadAll("club"));
        Assert.True(await athletes.SaveOnce("squad", "club", [("A", "again")], Noon));
    }
}

public sealed class SqliteAthleteStoreTests() : AthleteStoreTests(Engine.Sqlite);

public sealed class PostgresAthleteStoreTests() : AthleteStoreTests(Engine.Postgres);
