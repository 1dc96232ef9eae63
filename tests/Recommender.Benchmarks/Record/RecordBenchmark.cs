using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;

namespace Recommender.Benchmarks.Record;

/// <summary>The record: bytes a decision, walking the chain, replay, the impact of a draft on 10,000 decisions, and a list among 1,000,000.</summary>
internal static class RecordBenchmark
{
    private const int Decisions = 10_000;
    private const int Many = 1_000_000;
    private const int Athletes = 500;
    private const string Club = "club";

    public static async Task Run()
    {
        var folder = Directory.CreateTempSubdirectory("recommender-record-");
        try
        {
            using var store = SqliteStore.Open(folder.FullName);
            var packings = new Packings(store);
            var start = KnowledgeAtStart.Read(Path.Combine(AppContext.BaseDirectory, "data"));
            var versions = new VersionStore(store);
            await start.Keep(versions, DateTimeOffset.UtcNow);
            await packings.Use(RepeatedText.Of(start.Edition));
            await using var log = new DecisionLog(store, packings);
            var editions = new Editions(versions, start);
            var inForce = new EditionInForce(versions, editions, start);
            using var knowledge = new KnowledgeVersions(versions, editions, inForce, start, TimeProvider.System);
            var table = new Table($"The record, {Decisions:N0} decisions of the demo squad (goals: under 6 KB a decision, replay at the speed of a recommendation, impact under 15 s, a list among {Many:N0} under 10 ms)", "what", "figure");

            var requests = Requests.OfTheSquad();
            var facts = new ReadFacts(new OutcomeStore(store), new PreferencesInForce(new PreferenceStore(store), TimeProvider.System));
            var recommendations = new AnswerRecommendation(inForce, log, facts, TimeProvider.System);
            var ids = new List<string>();
            var appending = Stopwatch.StartNew();
            for (var i = 0; i < Decisions; i += 100)
            {
                ids.AddRange((await Task.WhenAll(Enumerable.Range(i, 100).Select(async n => (await recommendations.One(requests[n % requests.Count] with { Exclude = null }, Club, null)).Answer!.DecisionId))));
            }

            table.Add("answered and stored, a second", Plain(Decisions / appending.Elapsed.TotalSeconds));
            table.Add("KB a decision, whole file", ((double)await Size(store) / Decisions / 1024).ToString("0.00", CultureInfo.InvariantCulture));
            var walking = Stopwatch.StartNew();
            var check = await new ChainVerifier(store, packings).Verify(Club);
            table.Add("records walked a second", $"{Plain(check.Checked / walking.Elapsed.TotalSeconds)}, {(check.FirstBroken is null ? "intact" : "BROKEN")}");

            var replays = new ReplayDecision(log, editions, inForce, facts);
            var (replay, recommendation) = (new List<double>(), new List<double>());
            for (var i = 0; i < 300; i++)
            {
                replay.Add(await Milliseconds(() => replays.Of(Club, ids[i], current: false)));
                recommendation.Add(await Milliseconds(() => recommendations.One(requests[i % requests.Count], Club, null)));
            }

            table.Add("replay, median ms (a recommendation with its record)", $"{Statistics.Median(replay):0.00} ({Statistics.Median(recommendation):0.00})");

            var heavier = start.Edition.Catalogue.Exercises.First(e => e.Id == "dumbbell-front-squat");
            var exercise = JsonNode.Parse((await versions.Read(Club, KnowledgeKind.Catalogue, start.Edition.CatalogueVersion))!.Files[$"exercises/{heavier.Pattern}.json"])!["exercises"]!.AsArray().First(e => (string)e!["id"]! == heavier.Id)!.AsObject();
            exercise["tissueLoad"]!["patellar-tendon"] = JsonNode.Parse("""{"value":9,"low":8,"high":9.5,"basis":"common-practice","source":null}""");
            var draft = await knowledge.Draft(Club, new CatalogueDraft { Upsert = [exercise.DeepClone().AsObject()] });
            var impact = new VersionImpact(new DecisionReader(store, packings), log, facts);
            var trying = Stopwatch.StartNew();
            var changed = 0;
            await foreach (var stretch in impact.Of(Club, start.Edition, (await knowledge.With(Club, KnowledgeKind.Catalogue, draft.Version!))!, Decisions))
            {
                changed += stretch.Lines.Count;
            }

            table.Add($"impact of one changed tendon load on {Decisions:N0}", $"{trying.Elapsed.TotalSeconds:0.0} s, {changed} answers change");
            await Multiply(store);
            var reader = new DecisionReader(store, packings);
            foreach (var (name, filter) in new[]
            {
                ("by athlete", new DecisionFilter { Athlete = "A-007" }), ("all", DecisionFilter.All), ("by exercise", new DecisionFilter { Exercise = heavier.Id }),
                ("by a status that none has", new DecisionFilter { Status = "referred", To = DateTimeOffset.UnixEpoch.AddDays(30) }),
            })
            {
                var sample = new List<double>();
                for (var i = 0; i < 30; i++)
                {
                    sample.Add(await Milliseconds(() => reader.List("many", filter, null, 50)));
                }

                table.Add($"a page among {Many:N0}, {name}, median and worst ms", $"{Statistics.Median(sample):0.00}, {sample.Max():0.00}");
            }

            table.Print();
        }
        finally
        {
            SqliteConnection.ClearAllPools();
            folder.Delete(recursive: true);
        }
    }

    /// <summary>Rows of the size of real ones, by plain SQL: what is measured is reading.</summary>
    private static Task<int> Multiply(Store store) => store.Use(c => c.ExecuteAsync($"""
        PRAGMA synchronous = OFF;
        WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {Many}),
        one AS (SELECT * FROM decisions WHERE organisation = '{Club}' ORDER BY sequence LIMIT 1)
        INSERT INTO decisions (organisation, sequence, decision_id, kind, created_at, status, top, engine, catalogue_version, rules_version, athlete_ref, coach, personal, personal_salt, personal_hash, previous_hash, hash, request, answer)
        SELECT 'many', i, 'm-' || i, kind, i * 60000, 'answered', top, engine, catalogue_version, rules_version, printf('A-%03d', i % {Athletes}), coach, personal, personal_salt, personal_hash, previous_hash, hash, request, answer
        FROM n, one;
        INSERT INTO decision_exercises (organisation, exercise, created_at, sequence)
        SELECT 'many', CASE d.sequence % 20 WHEN 0 THEN 'dumbbell-front-squat' ELSE 'another' END, d.created_at, d.sequence FROM decisions d WHERE d.organisation = 'many';
        """, commandTimeout: 600));

    private static Task<long> Size(Store store) => store.Use(async c =>
    {
        await c.ExecuteAsync("PRAGMA wal_checkpoint(TRUNCATE)");
        return await c.ExecuteScalarAsync<long>("SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()");
    });

    private static async Task<double> Milliseconds<T>(Func<Task<T>> work)
    {
        var start = Stopwatch.GetTimestamp();
        _ = await work();
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    private static string Plain(double value) => value.ToString("N0", CultureInfo.InvariantCulture);
}
