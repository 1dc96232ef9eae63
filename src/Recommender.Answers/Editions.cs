using System.Collections.Concurrent;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>Editions of any kept pair of versions.</summary>
/// <param name="versions">Keeps versions.</param>
/// <param name="inForce">The edition in force, which need not be read again.</param>
public sealed class Editions(VersionStore versions, EditionInForce inForce)
{
    /// <summary>Editions that are held at a time: an audit goes back and forth between few.</summary>
    private const int Most = 6;

    private readonly ConcurrentDictionary<(string, string), Edition> held = new();

    /// <summary>The edition that a decision was made on; null when a version of it is not kept or cannot be read by this program.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public Task<Edition?> Of(string organisation, VersionStamp stamp) => Of(organisation, stamp.Catalogue, stamp.Rules);

    /// <summary>The edition of a catalogue and a set of rules; null when one of them is not kept or cannot be read by this program.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<Edition?> Of(string organisation, string catalogue, string rules)
    {
        var current = inForce.Current;
        if (current.CatalogueVersion == catalogue && current.RulesVersion == rules)
        {
            return current;
        }

        if (await Texts(organisation, catalogue, rules).ConfigureAwait(false) is not { } texts)
        {
            return null;
        }

        if (held.TryGetValue((catalogue, rules), out var edition))
        {
            return edition;
        }

        try
        {
            // It was checked when it was published; a program that reads it otherwise says so by its engine number.
            edition = KnowledgeReader.ReadUnchecked(new StoredKnowledge(texts.Catalogue, texts.Rules));
        }
        catch (InvalidKnowledgeException)
        {
            return null;
        }

        if (held.Count >= Most)
        {
            held.Clear();
        }

        return held.GetOrAdd((catalogue, rules), edition);
    }

    /// <summary>The texts of a pair of versions; null when one is not kept.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<(KnowledgeText Catalogue, KnowledgeText Rules)?> Texts(string organisation, string catalogue, string rules)
    {
        try
        {
            return await versions.Read(organisation, KnowledgeKind.Catalogue, catalogue).ConfigureAwait(false) is { } c && await versions.Read(organisation, KnowledgeKind.Rules, rules).ConfigureAwait(false) is { } r ? (c, r) : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }
}
