using System.Text.Json.Nodes;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers;

/// <summary>Lays edited exercises over a data folder and checks them with it, in the way of a draft; nothing is kept.</summary>
public sealed class CatalogueTrial
{
    private readonly string folder;
    private readonly KnowledgeText catalogue;
    private readonly KnowledgeText rules;

    private CatalogueTrial(string folder)
    {
        this.folder = folder;
        (Before, catalogue, rules) = KnowledgeReader.ReadWithText(folder);
    }

    /// <summary>The edition of the folder.</summary>
    public Edition Before { get; }

    /// <summary>Reads the folder.</summary>
    /// <exception cref="InvalidKnowledgeException">The folder itself cannot be read.</exception>
    public static CatalogueTrial In(string folder) => new(folder);

    /// <summary>Tries edits.</summary>
    /// <param name="upsert">Exercises that come, in the shape of the data files; others stay as they are.</param>
    /// <returns>The edition with the edits, null where something is wrong; and everything that is, its pointer /upsert, the place of the exercise, and what follows in it.</returns>
    public (Edition? After, IReadOnlyList<Fault> Faults) With(IReadOnlyList<JsonObject> upsert)
    {
        var edit = CatalogueEdit.Of(upsert, [], Before.Catalogue);
        return edit.Faults.Count > 0 || edit.Apply(catalogue) is not { } after ? (null, edit.Faults)
            : edit.Check(catalogue, after, text => KnowledgeReader.Read(new StoredKnowledge(text, rules), folder));
    }
}
