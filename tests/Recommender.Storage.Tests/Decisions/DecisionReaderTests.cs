using CsCheck;
using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

public abstract class DecisionReaderTests(Engine engine) : OpenLogTests(engine)
{
    private DecisionReader Reader => new(Store, new Packings(Store));

    [SkippableFact]
    public async Task Lists_the_newest_first_with_what_a_list_shows()
    {
        await Log.Append([Record("old"), Record("new") with { CreatedAt = Noon.AddMinutes(1), Top = null, Status = "referred" }], null);

        var list = await Reader.List("club", DecisionFilter.All, null, 10);

        Assert.Equal(new DecisionSummary("new", "recommendation", Noon.AddMinutes(1), "NM-04", "HC-1", "referred", null, new VersionStamp(1, "c0ffee", "beef", null), 2), list[0]);
        Assert.Equal("old", list[1].DecisionId);
    }

    /// <summary>More records than are read at once.</summary>
    [SkippableFact]
    public async Task Reads_all_with_the_reports_about_each()
    {
        var outcomes = new OutcomeStore(Store);
        await Log.Append([.. Enumerable.Range(0, 450).Select(i => Record($"d-{i}"))], null);
        foreach (var (decision, exercise) in new[] { ("d-0", "jump"), ("d-0", "hop"), ("d-0", "jump"), ("d-250", "hop"), ("d-449", "hop") })
        {
            await outcomes.Append("club", new StoredOutcome(decision, exercise, 0, Noon, "used", "NM-04", "HC-1", $$"""{"n":"{{Guid.NewGuid()}}"}""", null, false, false));
        }

        await outcomes.Append("academy", new StoredOutcome("d-1", "hop", 0, Noon, "used", "NM-04", "HC-1", "{}", null, false, false));

        var read = new List<(StoredDecision Decision, IReadOnlyList<StoredOutcome> Reports)>();
        await foreach (var one in Reader.ReadAllWithReports("club", DecisionFilter.All))
        {
            read.Add(one);
        }

        Assert.Equal(Enumerable.Range(0, 450).Select(i => $"d-{i}"), read.Select(r => r.Decision.Record.DecisionId));
        Assert.Equal([("d-0", 3), ("d-250", 1), ("d-449", 1)], read.Where(r => r.Reports.Count > 0).Select(r => (r.Decision.Record.DecisionId, r.Reports.Count)));
        Assert.Equal([("hop", 1), ("jump", 1), ("jump", 2)], read[0].Reports.Select(o => (o.Exercise, o.Entry)));
    }

    /// <summary>Filters and pages against the same question asked of a list in memory.</summary>
    [SkippableFact]
    public async Task Filters_and_pages_as_a_list_in_memory_would()
    {
        string[] athletes = ["NM-01", "NM-02", "NM-03"], coaches = ["HC-1", "HC-2"], kinds = ["recommendation", "substitution", "session"], statuses = ["answered", "referred"], exercises = ["a", "b", "c", "d"];
        var random = new Random(7);
        T Any<T>(T[] from) => from[random.Next(from.Length)];
        Gen<string?> One(string[] from) => Gen.Int[-1, from.Length - 1].Select(i => i < 0 ? null : from[i]);
        var records = Enumerable.Range(0, 300).Select(i => Record($"d-{i}") with
        {
            CreatedAt = Noon.AddMinutes(random.Next(60)),
            AthleteRef = random.Next(4) == 0 ? null : Any(athletes),
            Coach = random.Next(3) == 0 ? null : Any(coaches),
            Kind = Any(kinds),
            Status = Any(statuses),
            Exercises = [.. exercises.Where(_ => random.Next(2) == 0)],
            Versions = new VersionStamp(1, Any(["c1", "c2"]), Any(["r1", "r2"]), null),
        }).ToList();
        await Log.Append(records, null);
        var filters = Gen.Select(One(athletes), One(coaches), One(exercises), One(kinds), One(statuses),
            One(["c1", "r2"]), Gen.Int[0, 60].Nullable(), Gen.Int[0, 60].Nullable(), (athlete, coach, exercise, kind, status, version, from, to) => new DecisionFilter
            {
                Athlete = athlete,
                Coach = coach,
                Exercise = exercise,
                Kind = kind,
                Status = status,
                Version = version,
                From = from is { } f ? Noon.AddMinutes(f) : null,
                To = to is { } t ? Noon.AddMinutes(t) : null,
            });
        await filters.SampleAsync(async filter =>
        {
            var expected = records.Select((r, i) => (r, i))
                .Where(x => filter.Athlete is null || x.r.AthleteRef == filter.Athlete)
                .Where(x => filter.Coach is null || x.r.Coach == filter.Coach)
                .Where(x => filter.Exercise is null || x.r.Exercises.Contains(filter.Exercise))
                .Where(x => (filter.Kind is null || x.r.Kind == filter.Kind) && (filter.Status is null || x.r.Status == filter.Status))
                .Where(x => filter.Version is null || x.r.Versions.Catalogue == filter.Version || x.r.Versions.Rules == filter.Version)
                .Where(x => (filter.From is null || x.r.CreatedAt >= filter.From) && (filter.To is null || x.r.CreatedAt < filter.To))
                .OrderByDescending(x => x.r.CreatedAt).ThenByDescending(x => x.i).Select(x => x.r.DecisionId).ToList();
            var paged = new List<string>();
            DecisionPlace? after = null;
            while (await Reader.List("club", filter, after, 37) is { Count: > 0 } page)
            {
                paged.AddRange(page.Select(p => p.DecisionId));
                after = new DecisionPlace(page[^1].CreatedAt, page[^1].Sequence);
            }

            var all = new List<string>();
            await foreach (var stored in Reader.ReadAll("club", filter))
            {
                all.Add(stored.Record.DecisionId);
            }

            Assert.Equal(expected, paged);
            Assert.Equal(expected.AsEnumerable().Reverse(), all);
        }, iter: 60);
    }

    [SkippableFact]
    public async Task Another_organisation_sees_nothing()
    {
        await Log.Append([Record()], null);

        Assert.Empty(await Reader.List("academy", DecisionFilter.All, null, 10));
        Assert.Empty(await Reader.List("academy", new DecisionFilter { Exercise = "back-squat" }, null, 10));
    }

    [SkippableTheory]
    [InlineData("\0")]
    [InlineData("NM-04\0")]
    [InlineData("\ud800")]
    [InlineData("'; DROP TABLE decisions; --")]
    public async Task Text_that_no_record_can_hold_finds_nothing(string text)
    {
        await Log.Append([Record()], null);

        Assert.Empty(await Reader.List("club", new DecisionFilter { Athlete = text }, null, 10));
        Assert.Empty(await Reader.List("club", new DecisionFilter { Exercise = text }, null, 10));
        Assert.Null(await Reader.Read("club", text));
        Assert.Null(await Log.ReadClaim("club", text, Noon));
        Assert.Single(await Reader.List("club", DecisionFilter.All, null, 10));
    }

    [SkippableFact]
    public async Task A_dictionary_makes_rows_smaller_and_is_found_again_by_a_later_program()
    {
        var words = Enumerable.Range(0, 400).Select(i => $"\"w{i * 7919 % 1000}\"").ToArray();
        var answer = System.Text.Encoding.UTF8.GetBytes($$"""{"decisionId":"x","words":[{{string.Join(',', words)}}]}""");
        await Log.Append([Record("plain") with { Answer = answer }], null);
        var packings = new Packings(Store);
        await packings.Use(answer);
        await packings.Use(answer);
        await using (var log = new DecisionLog(Store, packings))
        {
            await log.Append([Record("packed") with { Answer = answer }], null);
        }

        Assert.Equal(answer, (await Reader.Read("club", "packed"))!.Record.Answer.ToArray());
        Assert.Equal(1L, Outside.Value<long>("SELECT COUNT(*) FROM dictionaries"));
        var (plain, packed) = (Outside.Value<long>("SELECT length(answer) FROM decisions WHERE decision_id = 'plain'"), Outside.Value<long>("SELECT length(answer) FROM decisions WHERE decision_id = 'packed'"));
        Assert.True(packed * 4 < plain, $"{packed} bytes with the dictionary, {plain} without.");
        Outside.Run("DELETE FROM dictionaries");
        await Assert.ThrowsAsync<InvalidDataException>(() => Reader.Read("club", "packed"));
    }
}
