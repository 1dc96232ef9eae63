using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Storage;
using Recommender.Storage.Decisions;
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
        var unreadable = await versions.Publish("club", new string('0', 32), Start.Edition.RulesVersion, 0, Desk.Now);

        await Assert.ThrowsAsync<StoreUnavailableException>(() => inForce.Refresh("club"));

        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await inForce.Of("club"));
        Assert.Equal(Start.Edition.CatalogueVersion, (await inForce.Of("school")).CatalogueVersion);
        await versions.Publish("club", Start.Edition.CatalogueVersion, Start.Edition.RulesVersion, unreadable!.Value, Desk.Now);
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

    private async Task<string> Publish(string organisation)
    {
        var draft = await knowledge.Draft(organisation, new CatalogueDraft { Remove = ["leg-cradle-walk"] });
        Assert.Empty(draft.Faults);
        Assert.True((await knowledge.Publish(organisation, KnowledgeKind.Catalogue, draft.Version!)).Done);
        return draft.Version!;
    }
}
