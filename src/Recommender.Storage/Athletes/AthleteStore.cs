using Dapper;

namespace Recommender.Storage.Athletes;

/// <summary>Saved athlete profiles, as JSON, by organisation and ref.</summary>
/// <param name="store">The open store.</param>
public sealed class AthleteStore(SqliteStore store)
{
    private const string List = """
        SELECT profile
        FROM athletes
        WHERE organisation = @organisation
        ORDER BY ref
        """;

    private const string One = """
        SELECT profile
        FROM athletes
        WHERE organisation = @organisation AND ref = @reference
        ORDER BY ref
        LIMIT 1
        """;

    private const string Put = """
        INSERT INTO athletes (organisation, ref, profile, updated_at)
        VALUES (@organisation, @reference, @profile, @updatedAt)
        ON CONFLICT (organisation, ref) DO UPDATE
        SET profile = excluded.profile, updated_at = excluded.updated_at
        """;

    private const string Mark = "INSERT INTO marks (name) VALUES (@mark) ON CONFLICT (name) DO NOTHING";

    /// <summary>All profiles of an organisation, by ref.</summary>
    public async Task<IReadOnlyList<string>> ReadAll(string organisation) =>
        [.. await store.Use(c => c.QueryAsync<string>(List, new { organisation })).ConfigureAwait(false)];

    /// <summary>One profile, or null.</summary>
    public Task<string?> Read(string organisation, string reference) =>
        store.Use(c => c.QuerySingleOrDefaultAsync<string?>(One, new { organisation, reference }));

    /// <summary>Saves profiles once in the life of the store; later calls with the same mark do nothing.</summary>
    /// <returns>Whether they were saved now.</returns>
    public Task<bool> SaveOnce(string mark, string organisation, IEnumerable<(string Ref, string Profile)> profiles, DateTimeOffset now) =>
        store.Use(async c =>
        {
            using var transaction = c.BeginTransaction();
            var first = await c.ExecuteAsync(Mark, new { mark }, transaction).ConfigureAwait(false) == 1;
            if (first)
            {
                await c.ExecuteAsync(Put, profiles.Select(p => new { organisation, reference = p.Ref, profile = p.Profile, updatedAt = now.ToUnixTimeMilliseconds() }), transaction).ConfigureAwait(false);
            }

            transaction.Commit();
            return first;
        });
}
