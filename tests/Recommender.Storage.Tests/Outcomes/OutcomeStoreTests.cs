using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;

namespace Recommender.Storage.Tests.Outcomes;

/// <summary>Reports and learned numbers, on both engines.</summary>
public abstract class OutcomeStoreTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    private readonly StorePlace place;
    private readonly Store store;
    private readonly OutcomeStore outcomes;
    private readonly PreferenceStore preferences;

    protected OutcomeStoreTests(Engine engine)
    {
        place = engine.NewPlace();
        store = place.Open();
        (outcomes, preferences) = (new OutcomeStore(store), new PreferenceStore(store));
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        store.Dispose();
        place.Dispose();
    }

    [SkippableFact]
    public async Task The_last_report_about_a_pick_counts_and_the_same_again_adds_nothing()
    {
        var first = (await outcomes.Append("club", Report("d-1", "squat", "{}")))!.Value;
        var again = (await outcomes.Append("club", Report("d-1", "squat", "{}")))!.Value;
        var later = (await outcomes.Append("club", Report("d-1", "squat", """{"a":1}""")))!.Value;
        await outcomes.Append("club", Report("d-1", "jump", "{}"));
        await outcomes.Append("other", Report("d-1", "squat", """{"a":2}"""));

        Assert.Equal((true, false, true), (first.New, again.New, later.New));
        Assert.Equal((1, 1, 2), (first.Kept.Entry, again.Kept.Entry, later.Kept.Entry));
        Assert.Equal(3, (await outcomes.OfDecision("club", "d-1")).Count);
        Assert.Equal([("jump", 1), ("squat", 2)], (await outcomes.All("club")).Select(o => (o.Exercise, o.Entry)));
        Assert.Equal(["club", "other"], await outcomes.Organisations());
    }

    [SkippableFact]
    public async Task Pages_hold_every_report_that_counts_once()
    {
        for (var i = 0; i < 25; i++)
        {
            await outcomes.Append("club", Report($"d-{i:00}", "squat", "{}"));
            await outcomes.Append("club", Report($"d-{i:00}", "jump", "{}"));
        }

        var seen = new List<string>();
        await outcomes.Each("club", page => seen.AddRange(page.Select(o => o.DecisionId + o.Exercise)));

        Assert.Equal(50, seen.Distinct().Count());
        Assert.Equal(50, seen.Count);
    }

    [SkippableFact]
    public async Task Pain_is_found_by_athlete_since_a_moment_unless_it_was_corrected()
    {
        await outcomes.Append("club", Report("d-1", "squat", "{}", pained: true));
        await outcomes.Append("club", Report("d-2", "jump", "{}", pained: true) with { CreatedAt = Noon.AddDays(-20) });
        await outcomes.Append("club", Report("d-3", "hop", "{}", pained: true));
        await outcomes.Append("club", Report("d-3", "hop", """{"corrected":true}"""));

        Assert.Equal(["squat"], (await outcomes.Pained("club", "NM-04", Noon.AddDays(-15))).Select(o => o.Exercise));
        Assert.Empty(await outcomes.Pained("club", "NM-05", Noon.AddDays(-15)));
        Assert.Empty(await outcomes.Pained("other", "NM-04", Noon.AddDays(-15)));
    }

    [SkippableFact]
    public async Task Erasing_takes_ref_coach_and_what_is_stripped()
    {
        await outcomes.Append("club", Report("d-1", "squat", """{"note":"secret"}""", pained: true));

        Assert.Equal(1, await outcomes.Erase("club", "NM-04", (_, _) => ("{}", null)));
        Assert.Equal(0, await outcomes.Erase("club", "NM-04", (_, _) => ("{}", null)));

        var left = Assert.Single(await outcomes.All("club"));
        Assert.Equal((null, null, "{}", null, false, true), (left.AthleteRef, left.Coach, left.Report, left.Facts, left.Pained, left.Erased));
    }

    [SkippableFact]
    public async Task Learned_numbers_are_kept_once_and_put_in_force_by_coach()
    {
        var version = new KeptPreference("HC-1", "v1", Noon, "{}", "{}");
        Assert.True(await preferences.Keep("club", version));
        Assert.False(await preferences.Keep("club", version));
        Assert.True(await preferences.Keep("club", version with { Coach = null }));

        await preferences.Publish("club", "HC-1", "v1", Noon);
        await preferences.Publish("club", null, "v1", Noon);
        await preferences.Publish("club", null, null, Noon);

        Assert.Equal([("HC-1", "v1")], (await preferences.InForce("club")).Select(p => (p.Key, p.Value)));
        Assert.Equal("{}", await preferences.Content("club", "v1"));
        Assert.Null(await preferences.Content("other", "v1"));
        Assert.Equal(2, (await preferences.List("club")).Count);
    }

    [SkippableFact]
    public async Task Those_who_put_numbers_in_force_at_once_all_do_and_the_last_entry_counts()
    {
        using var another = place.Open();
        PreferenceStore[] replicas = [preferences, new PreferenceStore(another)];
        await Task.WhenAll(replicas.Select((replica, which) => Task.Run(async () =>
        {
            for (var i = 0; i < 12; i++)
            {
                await replica.Publish("club", "HC-1", $"v{which}-{i}", Noon);
            }
        })));

        using var outside = place.Outside();
        var entries = outside.Rows("SELECT entry, version FROM preference_publications ORDER BY entry");
        Assert.Equal(Enumerable.Range(1, 24).Select(i => (long)i), entries.Select(e => Convert.ToInt64(e[0], System.Globalization.CultureInfo.InvariantCulture)));
        Assert.Equal((string)entries[^1][1]!, (await preferences.InForce("club"))["HC-1"]);
    }

    private static StoredOutcome Report(string decision, string exercise, string report, bool pained = false) => new(decision, exercise, 0, Noon, "used", "NM-04", "HC-1", report, "{}", pained, false);
}

public sealed class SqliteOutcomeStoreTests() : OutcomeStoreTests(Engine.Sqlite);

public sealed class PostgresOutcomeStoreTests() : OutcomeStoreTests(Engine.Postgres);
