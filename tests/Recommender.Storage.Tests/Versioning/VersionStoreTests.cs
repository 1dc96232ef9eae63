using System.Security.Cryptography;
using System.Text;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Tests.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Storage.Tests.Versioning;

public abstract class VersionStoreTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);
    private readonly StorePlace place;
    private readonly Store store;
    private readonly VersionStore versions;

    protected VersionStoreTests(Engine engine)
    {
        place = engine.NewPlace();
        store = place.Open();
        versions = new VersionStore(store);
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        store.Dispose();
        place.Dispose();
    }

    [SkippableFact]
    public async Task Gives_back_the_text_of_a_version_byte_for_byte()
    {
        var text = Text("one");
        Assert.True(await versions.Keep("club", KnowledgeKind.Catalogue, text, null, Noon));
        Assert.False(await versions.Keep("club", KnowledgeKind.Catalogue, text, null, Noon));

        var read = await versions.Read("club", KnowledgeKind.Catalogue, text.Version);

        Assert.Equal(text.Utf8.ToArray(), read!.Utf8.ToArray());
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(text.Utf8.Span))[..32], text.Version);
        Assert.Null(await versions.Read("club", KnowledgeKind.Rules, text.Version));
    }

    [SkippableFact]
    public async Task Another_organisations_version_is_not_there_and_that_of_the_data_folder_is_everybodys()
    {
        await versions.Keep("club", KnowledgeKind.Rules, Text("own"), null, Noon);
        await versions.Keep(null, KnowledgeKind.Rules, Text("folder"), null, Noon);

        Assert.Null(await versions.Read("academy", KnowledgeKind.Rules, Text("own").Version));
        Assert.NotNull(await versions.Read("academy", KnowledgeKind.Rules, Text("folder").Version));
        Assert.False(await versions.Keep("academy", KnowledgeKind.Rules, Text("folder"), null, Noon));
        Assert.True(Assert.Single(await versions.List("academy", KnowledgeKind.Rules)).FromDataFolder);
    }

    [SkippableFact]
    public async Task A_changed_text_is_told_and_never_given()
    {
        await versions.Keep("club", KnowledgeKind.Catalogue, Text("one"), null, Noon);
        await versions.Keep("club", KnowledgeKind.Catalogue, Text("two"), null, Noon);
        using var outside = place.Outside();
        outside.Run($"UPDATE knowledge_versions SET content = (SELECT content FROM knowledge_versions WHERE version = '{Text("two").Version}')");

        await Assert.ThrowsAsync<InvalidDataException>(() => versions.Read("club", KnowledgeKind.Catalogue, Text("one").Version));
    }

    [SkippableFact]
    public async Task The_last_published_pair_is_in_force_and_older_ones_stay_published()
    {
        foreach (var name in new[] { "one", "two", "three" })
        {
            await versions.Keep("club", KnowledgeKind.Catalogue, Text(name), null, Noon);
        }

        var rules = await Rules();
        Assert.Null(await versions.InForce("club"));
        var first = await versions.Publish("club", Text("one").Version, rules, 0, Noon);
        var second = await versions.Publish("club", Text("two").Version, rules, first!.Value, Noon);
        Assert.Null(await versions.Publish("club", Text("one").Version, rules, first.Value, Noon));
        Assert.True(second > first);

        Assert.True(await versions.InForce("club") is var inForce && (inForce!.Catalogue, inForce.Rules) == (Text("two").Version, rules));
        Assert.Null(await versions.InForce("academy"));
        Assert.Equal(2, (await versions.List("club", KnowledgeKind.Catalogue)).Count(v => v.Published));
        Assert.False(await versions.Discard("club", KnowledgeKind.Catalogue, Text("one").Version));
        Assert.False(await versions.Discard("academy", KnowledgeKind.Catalogue, Text("three").Version));
        Assert.True(await versions.Discard("club", KnowledgeKind.Catalogue, Text("three").Version));
        Assert.Null(await versions.Read("club", KnowledgeKind.Catalogue, Text("three").Version));
    }

    [SkippableFact]
    public async Task Of_many_who_put_a_pair_in_force_on_one_before_at_once_one_does()
    {
        var others = Enumerable.Range(0, 4).Select(_ => place.Open()).ToList();
        var (rules, catalogues) = (await Rules(), others.Select((_, i) => Text($"c-{i}")).ToArray());
        foreach (var catalogue in catalogues)
        {
            await versions.Keep(null, KnowledgeKind.Catalogue, catalogue, null, Noon);
        }

        long after = 0;
        for (var round = 0; round < 5; round++)
        {
            var before = after;
            var positions = await Task.WhenAll(others.Select((s, i) => Task.Run(() => new VersionStore(s).Publish("club", catalogues[i].Version, rules, before, Noon))));
            var won = Assert.Single(positions, p => p is not null);
            Assert.Equal(new Publication(won!.Value, catalogues[Array.IndexOf(positions, won)].Version, rules), await versions.InForce("club"));
            after = won.Value;
        }

        await versions.Publish("academy", catalogues[0].Version, rules, 0, Noon);
        var newest = await versions.NewestPositions(["club", "academy", "nobody"]);
        Assert.Equal(["academy", "club"], newest.Keys.Order());
        Assert.Equal(after, newest["club"]);
        others.ForEach(s => s.Dispose());
    }

    [SkippableFact]
    public async Task A_pair_without_its_text_is_not_put_in_force()
    {
        var (catalogue, rules) = (Text("one").Version, await Rules());
        await versions.Keep("academy", KnowledgeKind.Catalogue, Text("one"), null, Noon);

        Assert.Null(await versions.Publish("club", catalogue, rules, 0, Noon));
        await versions.Keep("club", KnowledgeKind.Catalogue, Text("one"), null, Noon);
        Assert.Null(await versions.Publish("club", catalogue, Text("two").Version, 0, Noon));
        Assert.Null(await versions.InForce("club"));

        Assert.NotNull(await versions.Publish("club", catalogue, rules, 0, Noon));
    }

    [SkippableFact]
    public async Task Of_putting_in_force_and_taking_away_the_first_wins_and_the_second_is_refused()
    {
        var rules = await Rules();
        await versions.Keep("club", KnowledgeKind.Catalogue, Text("taken away first"), null, Noon);
        Assert.True(await versions.Discard("club", KnowledgeKind.Catalogue, Text("taken away first").Version));
        Assert.Null(await versions.Publish("club", Text("taken away first").Version, rules, 0, Noon));

        await versions.Keep("club", KnowledgeKind.Catalogue, Text("in force first"), null, Noon);
        Assert.NotNull(await versions.Publish("club", Text("in force first").Version, rules, 0, Noon));
        Assert.False(await versions.Discard("club", KnowledgeKind.Catalogue, Text("in force first").Version));
        Assert.NotNull(await versions.Read("club", KnowledgeKind.Catalogue, Text("in force first").Version));
    }

    [SkippableFact]
    public async Task Of_putting_in_force_and_taking_away_at_once_one_wins()
    {
        using var elsewhere = place.Open();
        var rules = await Rules();
        long after = 0;
        for (var round = 0; round < 20; round++)
        {
            var text = Text($"round {round}");
            await versions.Keep("club", KnowledgeKind.Catalogue, text, null, Noon);
            Task<long?> publish;
            Task<bool> discard;
            using (var outside = place.Outside())
            using (outside.Lock())
            {
                // Both have begun before either can end.
                publish = Task.Run(() => versions.Publish("club", text.Version, rules, after, Noon));
                discard = Task.Run(() => new VersionStore(elsewhere).Discard("club", KnowledgeKind.Catalogue, text.Version));
                await Task.Delay(20);
                Assert.False(publish.IsCompleted || discard.IsCompleted);
            }

            var (position, gone) = (await publish, await discard);

            Assert.Equal(position is null, gone);
            Assert.Equal(gone, await versions.Read("club", KnowledgeKind.Catalogue, text.Version) is null);
            after = position ?? after;
            Assert.Equal(position is not null, (await versions.InForce("club"))?.Catalogue == text.Version);
        }
    }

    private async Task<string> Rules()
    {
        await versions.Keep(null, KnowledgeKind.Rules, Text("rules"), null, Noon);
        return Text("rules").Version;
    }

    private static KnowledgeText Text(string name) => KnowledgeText.Of([KeyValuePair.Create("a.json", Encoding.UTF8.GetBytes($$"""{"name":"{{name}}"}"""))]);
}

public sealed class SqliteVersionStoreTests() : VersionStoreTests(Engine.Sqlite);

public sealed class PostgresVersionStoreTests() : VersionStoreTests(Engine.Postgres);

public sealed class StoredKnowledgeTests : IDisposable
{
    private readonly DataCopy data = new();

    public void Dispose() => data.Dispose();

    [Fact]
    public void Stored_text_is_read_as_the_folder_is_checked_or_not()
    {
        var (edition, catalogue, rules) = KnowledgeReader.ReadWithText(data.Folder);
        var stored = new StoredKnowledge(KnowledgeText.Stored(catalogue.Utf8.ToArray(), catalogue.Version), KnowledgeText.Stored(rules.Utf8.ToArray(), rules.Version));

        foreach (var again in new[] { KnowledgeReader.Read(stored, data.Folder), KnowledgeReader.ReadUnchecked(stored) })
        {
            Assert.Equal((edition.CatalogueVersion, edition.RulesVersion), (again.CatalogueVersion, again.RulesVersion));
            Assert.Equal((catalogue.Version, rules.Version), (again.CatalogueVersion, again.RulesVersion));
            Assert.Equal(edition.Catalogue.Exercises.Select(e => e.Id), again.Catalogue.Exercises.Select(e => e.Id));
            var (was, now) = (edition.Catalogue.Exercises.ToList(), again.Catalogue.Exercises.ToList());
            Assert.All(Enumerable.Range(0, was.Count), i => Assert.Equal(Json(was[i]), Json(now[i])));
        }
    }

    [Fact]
    public void How_a_number_is_written_changes_no_version()
    {
        var before = KnowledgeReader.Read(data.Folder);

        data.Edit("rules/defaults.json", f => f["smallSpaceMetres"] = System.Text.Json.Nodes.JsonNode.Parse("3.00"));

        Assert.Equal(before.RulesVersion, KnowledgeReader.Read(data.Folder).RulesVersion);
    }

    [Fact]
    public void A_changed_value_is_named_and_made_alone()
    {
        var (_, before, _) = KnowledgeReader.ReadWithText(data.Folder);
        data.Edit("exercises/squat.json", f =>
        {
            f["exercises"]![0]!["setUpMinutes"] = 7;
            f["exercises"]![1]!["howTo"] = "Sit down and stand up.";
        });
        var (_, after, _) = KnowledgeReader.ReadWithText(data.Folder);

        var changes = KnowledgeChange.Between(before, after);

        Assert.Equal(2, changes.Count);
        Assert.All(changes, c => Assert.Equal("exercises/squat.json", c.File));
        Assert.EndsWith("set up minutes: from 2 to 7.", changes.Single(c => c.Text.Contains("minutes", StringComparison.Ordinal)).Text.Replace("from 1 ", "from 2 ").Replace("from 3 ", "from 2 ").Replace("from 0 ", "from 2 "));
        var alone = changes[0].Alone(before);
        Assert.Equal([changes[0].Text], KnowledgeChange.Between(before, alone).Select(c => c.Text));
        Assert.Equal(after.Version, changes[1].Alone(alone).Version);
        Assert.Empty(KnowledgeChange.Between(after, after));
    }

    private static string Json(Domain.Catalogue.Exercise exercise) => System.Text.Json.JsonSerializer.Serialize(exercise, KnowledgeJson.Default.Exercise);
}
