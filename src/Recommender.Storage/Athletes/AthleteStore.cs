using Dapper;

namespace Recommender.Storage.Athletes;

/// <summary>Saved athlete profiles, as JSON, by organisation and ref.</summary>
/// <param name="store">The open store.</param>
public sealed class AthleteStore(Store store)
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

    private const string PutNew = """
        INSERT INTO athletes (organisation, ref, profile, updated_at)
        VALUES (@organisation, @reference, @profile, @updatedAt)
        ON CONFLICT (organisation, ref) DO NOTHING
        """;

    private const string Delete = "DELETE FROM athletes WHERE organisation = @organisation AND ref = @reference";

    private const string Mark = "INSERT INTO marks (name) VALUES (@mark) ON CONFLICT (name) DO NOTHING";

    /// <summary>All profiles of an organisation, by ref.</summary>
    public async Task<IReadOnlyList<string>> ReadAll(string organisation) =>
        [.. await store.Use(c => c.QueryAsync<string>(List, new { organisation })).ConfigureAwait(false)];

    /// <summary>One profile, or null.</summary>
    public Task<string?> Read(string organisation, string reference) =>
        store.Use(c => c.QuerySingleOrDefaultAsync<string?>(One, new { organisation, reference }));

    /// <summary>Saves a profile in place of any before it.</summary>
    /// <returns>Whether there was none before.</returns>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be saved.</exception>
    public Task<bool> Save(string organisation, string reference, string profile, DateTimeOffset now) =>
        store.Use(async c =>
        {
            // Of two who save at once one is first; the other's replaces it.
            var profileNow = new { organisation, reference, profile, updatedAt = now.ToUnixTimeMilliseconds() };
            var isNew = await c.ExecuteAsync(PutNew, profileNow).ConfigureAwait(false) == 1;
            if (!isNew)
            {
                await c.ExecuteAsync(Put, profileNow).ConfigureAwait(false);
            }

            return isNew;
        });

    /// <summary>Removes a profile; what it held is overwritten in the file.</summary>
    /// <returns>Whether there was one.</returns>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be removed.</exception>
    public Task<bool> Remove(string organisation, string reference) => store.Use(async c =>
    {
        var removed = await c.ExecuteAsync(Delete, new { organisation, reference }).ConfigureAwait(false) > 0;
        await store.ForgetErased(c).ConfigureAwait(false);
        return removed;
    });

    /// <summary>Saves profiles once in the life of the store; later calls with the same mark do nothing.</summary>
    /// <returns>Whether they were saved now.</returns>
    public Task<bool> SaveOnce(string mark, string organisation, IEnumerable<(string Ref, string Profile)> profiles, DateTimeOffset now) =>
        store.Use(async c =>
        {
            await using var transaction = await c.BeginTransactionAsync().ConfigureAwait(false);
            var first = await c.ExecuteAsync(Mark, new { mark }, transaction).ConfigureAwait(false) == 1;
            if (first)
            {
                await c.ExecuteAsync(Put, profiles.Select(p => new { organisation, reference = p.Ref, profile = p.Profile, updatedAt = now.ToUnixTimeMilliseconds() }), transaction).ConfigureAwait(false);
            }

            await transaction.CommitAsync().ConfigureAwait(false);
            return first;
        });
}
