using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Storage;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;
using Recommender.Testing;

namespace Recommender.Answers.Tests;

/// <summary>What is in force of several organisations, on a real store and the repository's own knowledge, in two programs (two instances).</summary>
public sealed class EditionInForceTests : IAsyncLifetime
{
    private static readonly KnowledgeAtStart Start = KnowledgeAtStart.Read(TestEdition.DataFolder);
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("recommender-in-force-");
    private readonly SqliteStore store;
    private readonly VersionStore versions;
    private readonly Editions editions;
    private readonly EditionInForce inForce;
    private readonly KnowledgeVersions knowledge;

    public EditionInForceTests()
    {
        store = SqliteStore.Open(folder.FullName);
        versions = new VersionStore(store);
        editions = new Editions(versions, Start);
        inForce = new EditionInForce(versions, editions, Start);
        knowledge = new KnowledgeVersions(versions, editions, inForce, Start, TimeProvider.System);
    }

    public Task InitializeAsync() => KnowledgeAtStart.Read(TestEdition.DataFolder).Keep(versions, Desk.Now);

    public Task DisposeAsync()
    {
        knowledge.Dispose();
        store.Dispose();
        folder.Delete(recursive: true);
        return Task.CompletedTask;
    }

    [Fact]
    public async Task What_one_organisation_publishes_is_in_force_for_it_alone_and_held_once_however_many_are_on_it()
    {
        var version = await Publish("club");
        await Publish("academy");

        Assert.Equal(version, (await inForce.Of("club")).CatalogueVersion);
        Assert.Same(await inForce.Of("club"), await inForce.Of("academy"));
        Assert.Equal(Start.Edition.CatalogueVersion, (await inForce.Of("school")).CatalogueVersion);
        Assert.Same(await inForce.Of("school"), await inForce.Of("college"));
        Assert.Null(await editions.Of("school", version, Start.Edition.RulesVersion));
        Assert.Null((await inForce.Of("club")).Catalogue.Find("leg-cradle-walk"));
        Assert.NotNull((await inForce.Of("school")).Catalogue.Find("leg-cradle-walk"));
    }

    [Fact]
    public async Task A_refresh_takes_over_what_another_program_published()
    {
        var elsewhere = new EditionInForce(versions, new Editions(versions, Start), Start);
        Assert.Equal(Start.Edition.CatalogueVersion, (await elsewhere.Of("club")).CatalogueVersion);
        var version = await Publish("club");

        Assert.Equal(version, (await elsewhere.Refresh("club")).CatalogueVersion);

        Assert.Equal(version, (await elsewhere.Of("club")).CatalogueVersion);
        elsewhere.Replace("club", Start.Edition, 0);
        Assert.Equal(version, (await elsewhere.Of("club")).CatalogueVersion);
    }

    [Fact]
    public async Task A_pair_that_cannot_be_read_gives_no_answers_instead_of_others()
    {
        Assert.Equal(Start.Edition.CatalogueVersion, (await inForce.Of("club")).CatalogueVersion);
        var unreadable = await PublishUnreadable(KnowledgeKind.Catalogue);

        await Assert.ThrowsAsync<UnreadableEditionException>(() => inForce.Refresh("club"));

        await Assert.ThrowsAsync<UnreadableEditionException>(async () => await inForce.Of("club"));
        Assert.Equal(Start.Edition.CatalogueVersion, (await inForce.Of("school")).CatalogueVersion);
        await versions.Publish("club", Start.Edition.CatalogueVersion, Start.Edition.RulesVersion, unreadable, Desk.Now);
        Assert.Same(Start.Edition, await inForce.Of("club"));
    }

    [Fact]
    public async Task An_edition_that_made_room_is_read_again_when_it_is_asked_for()
    {
        var version = await Publish("club");
        for (var i = 0; i < Editions.Most; i++)
        {
            inForce.Replace($"club-{i}", new Edition(TestEdition.Current.Catalogue, TestEdition.Current.Knowledge, $"other-{i}", "other"), i + 10);
        }

        Assert.Equal(version, (await inForce.Of("club")).CatalogueVersion);
    }

    /// <summary>What is in force is a text that no program reads, or one that is gone, of one kind or of both.</summary>
    [Theory]
    [InlineData(true, false, false)]
    [InlineData(true, false, true)]
    [InlineData(false, true, false)]
    [InlineData(false, true, true)]
    [InlineData(true, true, false)]
    [InlineData(true, true, true)]
    public async Task From_a_pair_that_cannot_be_read_there_is_a_way_back(bool catalogue, bool rules, bool textGone)
    {
        await PublishUnreadable([.. new[] { (catalogue, KnowledgeKind.Catalogue), (rules, KnowledgeKind.Rules) }.Where(k => k.Item1).Select(k => k.Item2)]);
        if (textGone)
        {
            await store.Use(async connection =>
            {
                await using var command = connection.CreateCommand();
                command.CommandText = "DELETE FROM knowledge_versions WHERE organisation = 'club'";
                return await command.ExecuteNonQueryAsync();
            });
        }

        await Assert.ThrowsAsync<UnreadableEditionException>(async () => await inForce.Of("club"));
        Assert.Equal(catalogue, await knowledge.InForce("club", KnowledgeKind.Catalogue) != Start.Edition.CatalogueVersion);

        Assert.Equal((true, 0), await Done(KnowledgeKind.Catalogue, Start.Edition.CatalogueVersion));
        Assert.Equal((true, 0), await Done(KnowledgeKind.Rules, Start.Edition.RulesVersion));

        Assert.Same(Start.Edition, await inForce.Of("club"));
        Assert.Same(Start.Edition, await new EditionInForce(versions, new Editions(versions, Start), Start).Of("club"));
    }

    [Fact]
    public async Task On_the_way_back_a_half_that_can_be_read_stays()
    {
        var own = await knowledge.Draft("club", new CatalogueDraft { Remove = ["leg-cradle-walk"] });
        Assert.Empty(own.Faults);
        await PublishUnreadable([KnowledgeKind.Rules], own.Version);

        Assert.Equal((true, 0), await Done(KnowledgeKind.Rules, Start.Edition.RulesVersion));

        Assert.Equal(own.Version, (await inForce.Of("club")).CatalogueVersion);
    }

    [Fact]
    public async Task What_was_taken_away_is_no_version_and_what_is_in_force_stays()
    {
        var version = (await knowledge.Draft("club", new CatalogueDraft { Remove = ["leg-cradle-walk"] })).Version!;
        Assert.True(await knowledge.Discard("club", KnowledgeKind.Catalogue, version));

        Assert.Equal((false, 0), await Done(KnowledgeKind.Catalogue, version));

        Assert.Same(Start.Edition, await inForce.Of("club"));
    }

    private async Task<(bool Done, int Faults)> Done(KnowledgeKind kind, string version)
    {
        var (done, faults) = await knowledge.Publish("club", kind, version);
        return (done, faults.Count);
    }

    /// <summary>Puts texts in force for the club that are no knowledge, as another program might have.</summary>
    private Task<long> PublishUnreadable(KnowledgeKind kind) => PublishUnreadable([kind]);

    private async Task<long> PublishUnreadable(KnowledgeKind[] kinds, string? catalogue = null)
    {
        foreach (var kind in kinds)
        {
            await versions.Keep("club", kind, Unreadable(kind), null, Desk.Now);
        }

        return (await versions.Publish("club", kinds.Contains(KnowledgeKind.Catalogue) ? Unreadable(KnowledgeKind.Catalogue).Version : catalogue ?? Start.Edition.CatalogueVersion,
            kinds.Contains(KnowledgeKind.Rules) ? Unreadable(KnowledgeKind.Rules).Version : Start.Edition.RulesVersion, 0, Desk.Now))!.Value;

        static KnowledgeText Unreadable(KnowledgeKind kind) => KnowledgeText.Of([KeyValuePair.Create($"{kind}.json", "{}"u8.ToArray())]);
    }

    private async Task<string> Publish(string organisation)
    {
        var draft = await knowledge.Draft(organisation, new CatalogueDraft { Remove = ["leg-cradle-walk"] });
        Assert.Empty(draft.Faults);
        Assert.True((await knowledge.Publish(organisation, KnowledgeKind.Catalogue, draft.Version!)).Done);
        return draft.Version!;
    }
}
