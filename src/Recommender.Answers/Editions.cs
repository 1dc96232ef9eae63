using System.Collections.Concurrent;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>Editions of any kept pair of versions, each held once however many organisations are on it.</summary>
/// <param name="versions">Keeps versions.</param>
/// <param name="start">The edition of the data folder, which is always held.</param>
public sealed class Editions(VersionStore versions, KnowledgeAtStart start)
{
    /// <summary>Editions that are held beside the data folder's. The one that was used longest ago makes room; it is read again when it is asked for.</summary>
    public const int Most = 12;

    private readonly ConcurrentDictionary<(string Catalogue, string Rules), HeldEdition> held = new();
    private readonly ConcurrentDictionary<(string Catalogue, string Rules), Lazy<Task<HeldEdition?>>> reading = new();
    private readonly HeldEdition ofDataFolder = new(start.Edition);
    private readonly Lock room = new();

    /// <summary>The edition that a decision was made on; null when a version of it is not kept or cannot be read by this program.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public Task<Edition?> Of(string organisation, VersionStamp stamp) => Of(organisation, stamp.Catalogue, stamp.Rules);

    /// <summary>The edition of a catalogue and a set of rules; null when the organisation cannot see one of them, or this program cannot read it.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<Edition?> Of(string organisation, string catalogue, string rules)
    {
        while (await Held(organisation, catalogue, rules).ConfigureAwait(false) is { } found)
        {
            // It may have made room between being found and being taken.
            if (found.Use() is { } edition)
            {
                return edition;
            }
        }

        return null;
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

    /// <inheritdoc cref="Of(string, string, string)"/>
    internal async Task<HeldEdition?> Held(string organisation, string catalogue, string rules)
    {
        if (start.Edition.CatalogueVersion == catalogue && start.Edition.RulesVersion == rules)
        {
            return ofDataFolder;
        }

        if (held.TryGetValue((catalogue, rules), out var known) && known.Use() is not null)
        {
            // Held for another organisation does not mean that this one may see it.
            return await versions.Sees(organisation, KnowledgeKind.Catalogue, catalogue).ConfigureAwait(false) && await versions.Sees(organisation, KnowledgeKind.Rules, rules).ConfigureAwait(false) ? known : null;
        }

        if (await Texts(organisation, catalogue, rules).ConfigureAwait(false) is not { } texts)
        {
            return null;
        }

        // Many who ask at once wait for one reading of it.
        var mine = reading.GetOrAdd((catalogue, rules), _ => new Lazy<Task<HeldEdition?>>(() => Task.Run(() => Read(texts.Catalogue, texts.Rules))));
        try
        {
            return await mine.Value.ConfigureAwait(false);
        }
        finally
        {
            reading.TryRemove(KeyValuePair.Create((catalogue, rules), mine));
        }
    }

    /// <summary>Holds an edition that was read elsewhere.</summary>
    internal HeldEdition Hold(Edition edition)
    {
        if (start.Edition.CatalogueVersion == edition.CatalogueVersion && start.Edition.RulesVersion == edition.RulesVersion)
        {
            return ofDataFolder;
        }

        lock (room)
        {
            var pair = (edition.CatalogueVersion, edition.RulesVersion);
            if (held.TryGetValue(pair, out var known) && known.Use() is not null)
            {
                return known;
            }

            while (held.Count >= Most)
            {
                var oldest = held.MinBy(h => h.Value.LastUsed);
                held.TryRemove(oldest);
                oldest.Value.Drop();
            }

            return held[pair] = new HeldEdition(edition);
        }
    }

    private HeldEdition? Read(KnowledgeText catalogue, KnowledgeText rules)
    {
        try
        {
            // It was checked when it was published; a program that reads it otherwise says so by its engine number.
            return Hold(KnowledgeReader.ReadUnchecked(new StoredKnowledge(catalogue, rules)));
        }
        catch (Exception e) when (e is InvalidKnowledgeException or FileNotFoundException)
        {
            // Another program's, which may have had files of other names.
            return null;
        }
    }
}
