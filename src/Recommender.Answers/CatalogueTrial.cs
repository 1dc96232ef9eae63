using System.Text.Json.Nodes;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers;

/// <summary>Edited exercises laid over a data folder and checked with it, in the way of a draft; nothing is kept.</summary>
/// <param name="Before">The edition of the folder.</param>
/// <param name="After">The edition with the edits; null where something is wrong.</param>
/// <param name="Faults">Everything that is wrong; a pointer is /upsert, the place of the exercise, and what follows in it.</param>
public sealed record CatalogueTrial(Edition Before, Edition? After, IReadOnlyList<Fault> Faults)
{
    /// <summary>Tries the edits.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="upsert">Exercises that come, in the shape of the data files; others stay as they are.</param>
    /// <exception cref="InvalidKnowledgeException">The folder itself cannot be read.</exception>
    public static CatalogueTrial Of(string folder, IReadOnlyList<JsonObject> upsert)
    {
        var (before, catalogue, rules) = KnowledgeReader.ReadWithText(folder);
        var edit = CatalogueEdit.Of(upsert, [], before.Catalogue);
        if (edit.Faults.Count > 0 || edit.Apply(catalogue) is not { } after)
        {
            return new CatalogueTrial(before, null, edit.Faults);
        }

        var (edition, faults) = edit.Check(catalogue, after, text => KnowledgeReader.Read(new StoredKnowledge(text, rules), folder));
        return new CatalogueTrial(before, edition, faults);
    }
}
