using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Storage.Tests.KnowledgeFiles;

public abstract class CheckedKnowledgeTests : IDisposable
{
    private readonly DataCopy data = new();
    private readonly StorePlace place;
    private readonly Store store;
    private readonly CheckedKnowledge before;

    protected CheckedKnowledgeTests(Engine engine)
    {
        place = engine.NewPlace();
        store = place.Open();
        before = new CheckedKnowledge(store);
    }

    public void Dispose()
    {
        GC.SuppressFinalize(this);
        store.Dispose();
        place.Dispose();
        data.Dispose();
    }

    [SkippableFact]
    public void What_was_found_free_of_faults_is_read_alike_without_checking()
    {
        var (first, catalogue, rules) = KnowledgeReader.ReadWithText(data.Folder, before);
        Assert.True(before.Holds(CheckedKnowledge.MarkOf(data.Folder)!));

        // Another program on the same store knows it too.
        using var other = place.Open();
        var (again, catalogueAgain, rulesAgain) = KnowledgeReader.ReadWithText(data.Folder, new CheckedKnowledge(other));

        Assert.Equal((first.CatalogueVersion, first.RulesVersion), (again.CatalogueVersion, again.RulesVersion));
        Assert.Equal((catalogue.Version, rules.Version), (catalogueAgain.Version, rulesAgain.Version));
    }

    [SkippableFact]
    public void What_is_marked_is_not_checked_and_what_is_not_is()
    {
        // A fault that only the schema sees: more minutes than it allows.
        data.Edit("exercises/squat.json", f => f["exercises"]![0]!["setUpMinutes"] = 900);
        var faults = Assert.Throws<InvalidKnowledgeException>(() => KnowledgeReader.ReadWithText(data.Folder, before)).Faults;
        Assert.Contains(faults, f => f.File == "exercises/squat.json");
        Assert.False(before.Holds(CheckedKnowledge.MarkOf(data.Folder)!));

        before.Remember(CheckedKnowledge.MarkOf(data.Folder)!);

        KnowledgeReader.ReadWithText(data.Folder, before);
    }

    [SkippableTheory]
    [InlineData("rules/defaults.json")]
    [InlineData("schemas/defaults.schema.json")]
    [InlineData("demo/squad.json")]
    public void Any_other_byte_is_another_folder(string file)
    {
        KnowledgeReader.ReadWithText(data.Folder, before);
        var mark = CheckedKnowledge.MarkOf(data.Folder)!;

        File.AppendAllText(Path.Combine(data.Folder, file), " ");

        Assert.NotEqual(mark, CheckedKnowledge.MarkOf(data.Folder));
        Assert.False(before.Holds(CheckedKnowledge.MarkOf(data.Folder)!));
    }

    [SkippableFact]
    public void A_folder_that_cannot_be_read_has_no_mark_and_is_told_as_ever()
    {
        var gone = Path.Combine(data.Folder, "gone");

        Assert.Null(CheckedKnowledge.MarkOf(gone));
        Assert.Throws<InvalidKnowledgeException>(() => KnowledgeReader.ReadWithText(gone, before));
    }
}

public sealed class SqliteCheckedKnowledgeTests() : CheckedKnowledgeTests(Engine.Sqlite);

public sealed class PostgresCheckedKnowledgeTests() : CheckedKnowledgeTests(Engine.Postgres);
