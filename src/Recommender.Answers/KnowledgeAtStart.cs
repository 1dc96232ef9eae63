using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>The knowledge of the data folder, as it was read when the program started.</summary>
public sealed class KnowledgeAtStart
{
    private (KnowledgeText Catalogue, KnowledgeText Rules)? texts;

    private KnowledgeAtStart(string folder, Edition edition, KnowledgeText catalogue, KnowledgeText rules)
    {
        Folder = folder;
        Edition = edition;
        texts = (catalogue, rules);
    }

    /// <summary>The data folder; it holds the schemas too.</summary>
    public string Folder { get; }

    /// <summary>The edition.</summary>
    public Edition Edition { get; }

    /// <summary>Reads the data folder.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="before">Remembers what was checked before; null checks always.</param>
    /// <exception cref="InvalidKnowledgeException">It cannot be used; carries every fault found.</exception>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">What was checked before cannot be read.</exception>
    public static KnowledgeAtStart Read(string folder, CheckedKnowledge? before = null)
    {
        var (edition, catalogue, rules) = KnowledgeReader.ReadWithText(folder, before);
        return new KnowledgeAtStart(folder, edition, catalogue, rules);
    }

    /// <summary>Keeps its versions, for decisions that are made on them, and lets the texts go.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">They could not be kept.</exception>
    public async Task Keep(VersionStore versions, DateTimeOffset now)
    {
        if (texts is var (catalogue, rules))
        {
            await versions.Keep(null, KnowledgeKind.Catalogue, catalogue, null, now).ConfigureAwait(false);
            await versions.Keep(null, KnowledgeKind.Rules, rules, null, now).ConfigureAwait(false);
            texts = null;
        }
    }
}
