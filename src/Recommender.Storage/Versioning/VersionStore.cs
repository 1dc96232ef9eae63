using Dapper;
using Recommender.Storage.Decisions;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Storage.Versioning;

/// <summary>Keeps versions of catalogue and rules by the hash of their text, and which pair is in force.</summary>
/// <param name="store">The open store.</param>
public sealed class VersionStore(Store store)
{
    /// <summary>Owner of what the data folder holds: every organisation can see it.</summary>
    private const string Everybody = "";

    /// <summary>Keeps a version.</summary>
    /// <param name="organisation">Whose it is; null for what the data folder holds.</param>
    /// <param name="kind">Catalogue or rules.</param>
    /// <param name="text">Its text.</param>
    /// <param name="basedOn">Version that it was made from, or null.</param>
    /// <param name="now">When.</param>
    /// <returns>False when the organisation could see it already.</returns>
    /// <exception cref="StoreUnavailableException">It could not be kept.</exception>
    public async Task<bool> Keep(string? organisation, KnowledgeKind kind, KnowledgeText text, string? basedOn, DateTimeOffset now)
    {
        if (await Sees(organisation ?? Everybody, kind, text.Version).ConfigureAwait(false))
        {
            return false;
        }

        var content = Packing.Plain.Pack(text.Utf8.Span);
        return await store.Use(c => c.ExecuteAsync(VersionSql.Insert,
            new { organisation = organisation ?? Everybody, kind = Word(kind), version = text.Version, basedOn, createdAt = now.ToUnixTimeMilliseconds(), content })).ConfigureAwait(false) == 1;
    }

    /// <summary>The text of a version, or null when the organisation has none of it.</summary>
    /// <exception cref="InvalidDataException">The stored text is damaged or is not that of the version.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<KnowledgeText?> Read(string organisation, KnowledgeKind kind, string version)
    {
        var content = await store.Use(c => c.QuerySingleOrDefaultAsync<byte[]?>(VersionSql.Content, new { organisation, everybody = Everybody, kind = Word(kind), version })).ConfigureAwait(false);
        return content is null ? null : KnowledgeText.Stored(Packing.Plain.Unpack(content), version);
    }

    /// <summary>Versions that an organisation can see, newest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<KeptVersion>> List(string organisation, KnowledgeKind kind) =>
        [.. (await store.Use(c => c.QueryAsync<VersionRow>(VersionSql.List, new { organisation, everybody = Everybody, kind = Word(kind) })).ConfigureAwait(false))
            .Select(r => new KeptVersion(r.Version, r.BasedOn, DateTimeOffset.FromUnixTimeMilliseconds(r.CreatedAt), r.Organisation == Everybody, r.Published != 0))];

    /// <summary>
    /// Puts a pair in force, unless another was meanwhile or one of its texts was taken away: a pair that was made of two halves in force must not undo one that came between, and what cannot be read again
    /// must not be in force.
    /// </summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="catalogue">Version of the catalogue.</param>
    /// <param name="rules">Version of the rules.</param>
    /// <param name="after">Position of the pair in force that it was made from; 0 for none.</param>
    /// <param name="now">When.</param>
    /// <returns>Its place among all publications of the store, rising; null when another pair was put in force since or the organisation sees one of the texts no more, and nothing was recorded.</returns>
    /// <exception cref="StoreUnavailableException">It could not be recorded; the pair before stays in force.</exception>
    public Task<long?> Publish(string organisation, string catalogue, string rules, long after, DateTimeOffset now) => store.Use(async c =>
    {
        await using var transaction = await c.BeginTransactionAsync().ConfigureAwait(false);
        store.LockHeads(c, transaction, [organisation]);
        var position = await c.ExecuteScalarAsync<long?>(VersionSql.Publish, new { organisation, everybody = Everybody, catalogue, rules, after, publishedAt = now.ToUnixTimeMilliseconds() }, transaction).ConfigureAwait(false);
        await transaction.CommitAsync().ConfigureAwait(false);
        return position;
    });

    /// <summary>Position of the newest pair of each of these organisations that has put one in force.</summary>
    /// <param name="organisations">At most a few hundred.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyDictionary<string, long>> NewestPositions(IReadOnlyCollection<string> organisations)
    {
        var parameters = new DynamicParameters();
        foreach (var (i, organisation) in organisations.Index())
        {
            parameters.Add($"o{i}", organisation);
        }

        var rows = await store.Use(c => c.QueryAsync<(string Organisation, long Position)>(VersionSql.Newest(organisations.Count), parameters)).ConfigureAwait(false);
        return rows.ToDictionary(x => x.Organisation, x => x.Position, StringComparer.Ordinal);
    }

    /// <summary>The pair in force, or null while the organisation has published nothing and the data folder holds.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<Publication?> InForce(string organisation) =>
        await store.Use(c => c.QuerySingleOrDefaultAsync<PublicationRow>(VersionSql.InForce, new { organisation })).ConfigureAwait(false) is { } row ? new Publication(row.Position, row.Catalogue, row.Rules) : null;

    /// <summary>Takes a draft away: a version of the organisation's own that was never in force and that no decision was made on.</summary>
    /// <returns>Whether it was one and is gone.</returns>
    /// <exception cref="StoreUnavailableException">It could not be taken away.</exception>
    public Task<bool> Discard(string organisation, KnowledgeKind kind, string version) => store.Use(async c =>
    {
        // Under the lock that putting in force takes: of the two who come at once the second sees what the first did.
        await using var transaction = await c.BeginTransactionAsync().ConfigureAwait(false);
        store.LockHeads(c, transaction, [organisation]);
        var gone = await c.ExecuteAsync(VersionSql.Discard, new { organisation, kind = Word(kind), version }, transaction).ConfigureAwait(false) == 1;
        await transaction.CommitAsync().ConfigureAwait(false);
        return gone;
    });

    /// <summary>Whether an organisation can see a version: its own, or of the data folder.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<bool> Sees(string organisation, KnowledgeKind kind, string version) =>
        await store.Use(c => c.ExecuteScalarAsync<long>(VersionSql.Count, new { organisation, everybody = Everybody, kind = Word(kind), version })).ConfigureAwait(false) > 0;

    private static string Word(KnowledgeKind kind) => kind == KnowledgeKind.Catalogue ? "catalogue" : "rules";

    private sealed class VersionRow
    {
        public string Organisation { get; init; } = "";

        public string Version { get; init; } = "";

        public string? BasedOn { get; init; }

        public long CreatedAt { get; init; }

        public long Published { get; init; }
    }

    private sealed class PublicationRow
    {
        public long Position { get; init; }

        public string Catalogue { get; init; } = "";

        public string Rules { get; init; } = "";
    }
}

/// <summary>What a version is of.</summary>
public enum KnowledgeKind
{
    /// <summary>Vocabulary, sources, exercises, tissue-load models.</summary>
    Catalogue,

    /// <summary>Event profiles, rules, tests.</summary>
    Rules,
}

/// <summary>A pair that was put in force.</summary>
/// <param name="Position">Its place among all publications of the store, rising.</param>
/// <param name="Catalogue">Version of the catalogue.</param>
/// <param name="Rules">Version of the rules.</param>
public sealed record Publication(long Position, string Catalogue, string Rules);

/// <summary>A version that is kept.</summary>
/// <param name="Version">Hash of its text.</param>
/// <param name="BasedOn">Version that it was made from, or null.</param>
/// <param name="CreatedAt">Since when it is kept.</param>
/// <param name="FromDataFolder">Whether it came with the data folder.</param>
/// <param name="Published">Whether the organisation ever put it in force.</param>
public sealed record KeptVersion(string Version, string? BasedOn, DateTimeOffset CreatedAt, bool FromDataFolder, bool Published);
