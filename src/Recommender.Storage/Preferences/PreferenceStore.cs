using Dapper;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Preferences;

/// <summary>Keeps learned numbers by the hash of their text, and which are in force for whom.</summary>
/// <param name="store">The open store.</param>
public sealed class PreferenceStore(Store store)
{
    /// <summary>Stands for all coaches of an organisation.</summary>
    public const string Everybody = "";

    private const string Columns = "p.coach AS Coach, p.version AS Version, p.created_at AS CreatedAt, p.content AS Content, p.report AS Report";

    private const string InsertVersion = """
        INSERT INTO preferences (organisation, coach, version, created_at, content, report)
        VALUES (@organisation, @coach, @version, @createdAt, @content, @report)
        ON CONFLICT (organisation, coach, version) DO NOTHING
        """;

    private const string ListVersions = $"""
        SELECT {Columns}
        FROM preferences p
        WHERE p.organisation = @organisation
        ORDER BY p.created_at DESC, p.coach, p.version
        """;

    private const string OfVersion = $"""
        SELECT {Columns}
        FROM preferences p
        WHERE p.organisation = @organisation AND p.version = @version
        ORDER BY p.coach
        LIMIT 1
        """;

    private const string InsertPublication = """
        INSERT INTO preference_publications (organisation, coach, entry, version, published_at)
        SELECT @organisation, @coach, COALESCE(MAX(entry), 0) + 1, @version, @publishedAt
        FROM preference_publications
        WHERE organisation = @organisation AND coach = @coach
        """;

    private const string ListPublications = """
        SELECT p.coach AS Coach, p.version AS Version, p.published_at AS PublishedAt
        FROM preference_publications p
        WHERE p.organisation = @organisation
          AND NOT EXISTS (
              SELECT 1
              FROM preference_publications later
              WHERE later.organisation = p.organisation AND later.coach = p.coach AND later.entry > p.entry)
        ORDER BY p.coach
        """;

    /// <summary>Keeps a version; one that is kept for the same coach already stays as it is.</summary>
    /// <returns>Whether it is new.</returns>
    /// <exception cref="StoreUnavailableException">It could not be kept.</exception>
    public async Task<bool> Keep(string organisation, KeptPreference preference) => await store.Use(c => c.ExecuteAsync(InsertVersion, new
    {
        organisation,
        coach = preference.Coach ?? Everybody,
        version = preference.Version,
        createdAt = preference.CreatedAt.ToUnixTimeMilliseconds(),
        content = preference.Content,
        report = preference.Report,
    })).ConfigureAwait(false) == 1;

    /// <summary>Every version of an organisation, newest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<KeptPreference>> List(string organisation) =>
        [.. (await store.Use(c => c.QueryAsync<PreferenceRow>(ListVersions, new { organisation })).ConfigureAwait(false)).Select(r => r.ToKept())];

    /// <summary>The text of a version; null when the organisation has none of it.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<string?> Content(string organisation, string version) =>
        (await store.Use(c => c.QuerySingleOrDefaultAsync<PreferenceRow>(OfVersion, new { organisation, version })).ConfigureAwait(false))?.Content;

    /// <summary>Puts a version in force for a coach, or for all who have none of their own; null takes what is in force away.</summary>
    /// <exception cref="StoreUnavailableException">It could not be recorded; what was in force stays so.</exception>
    public Task Publish(string organisation, string? coach, string? version, DateTimeOffset now) => store.Use(async c =>
    {
        // Of two who come at once the second has the later entry.
        await using var transaction = await c.BeginTransactionAsync().ConfigureAwait(false);
        store.LockHeads(c, transaction, [organisation]);
        await c.ExecuteAsync(InsertPublication, new { organisation, coach = coach ?? Everybody, version, publishedAt = now.ToUnixTimeMilliseconds() }, transaction).ConfigureAwait(false);
        await transaction.CommitAsync().ConfigureAwait(false);
        return true;
    });

    /// <summary>Coach (<see cref="Everybody"/> for the organisation) to the version in force; those without are left out.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyDictionary<string, string>> InForce(string organisation) =>
        (await store.Use(c => c.QueryAsync<PublicationRow>(ListPublications, new { organisation })).ConfigureAwait(false)).Where(r => r.Version is not null).ToDictionary(r => r.Coach, r => r.Version!, StringComparer.Ordinal);

    private sealed class PreferenceRow
    {
        public string Coach { get; init; } = "";

        public string Version { get; init; } = "";

        public long CreatedAt { get; init; }

        public string Content { get; init; } = "";

        public string Report { get; init; } = "";

        public KeptPreference ToKept() => new(Coach.Length == 0 ? null : Coach, Version, DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt), Content, Report);
    }

    private sealed class PublicationRow
    {
        public string Coach { get; init; } = "";

        public string? Version { get; init; }
    }
}

/// <summary>A version of learned numbers as it is kept.</summary>
/// <param name="Coach">The coach; null for the organisation's.</param>
/// <param name="Version">Hash of its text.</param>
/// <param name="CreatedAt">When it was learned.</param>
/// <param name="Content">The numbers as JSON, in canonical form.</param>
/// <param name="Report">What they gain and cost, as JSON.</param>
public sealed record KeptPreference(string? Coach, string Version, DateTimeOffset CreatedAt, string Content, string Report);
