using Dapper;

namespace Recommender.Storage.Decisions;

/// <summary>Reads decisions: one, a page of a list, or all of them in a stream.</summary>
/// <param name="store">The open store.</param>
/// <param name="packings">What answers are packed with.</param>
public sealed class DecisionReader(Store store, Packings packings)
{
    /// <summary>Whole rows that are in memory at a time when all are read.</summary>
    private const int Stretch = 200;

    /// <summary>One record, or null when the organisation has none of this id.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">The record is damaged.</exception>
    public async Task<StoredDecision?> Read(string organisation, string decisionId)
    {
        var row = await store.Use(c => c.QuerySingleOrDefaultAsync<DecisionRow>(DecisionReadSql.One, new { organisation, decisionId })).ConfigureAwait(false);
        return row?.ToStored(packings);
    }

    /// <summary>A page of a list, newest first.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="filter">Which.</param>
    /// <param name="after">Where the page before ended; null for the first.</param>
    /// <param name="limit">At most so many.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<DecisionSummary>> List(string organisation, DecisionFilter filter, DecisionPlace? after, int limit)
    {
        var (sql, parameters) = DecisionReadSql.Page(organisation, filter, after, limit);
        return [.. (await store.Use(c => c.QueryAsync<DecisionRow>(sql, parameters)).ConfigureAwait(false)).Select(r => r.ToSummary())];
    }

    /// <summary>Whole records, newest first.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="after">Where the last ones ended; null for the first.</param>
    /// <param name="limit">At most so many.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">A record is damaged.</exception>
    public async Task<IReadOnlyList<StoredDecision>> Newest(string organisation, DecisionPlace? after, int limit)
    {
        var (sql, parameters) = DecisionReadSql.Newest(organisation, after, limit);
        return [.. (await store.Use(c => c.QueryAsync<DecisionRow>(sql, parameters)).ConfigureAwait(false)).Select(r => r.ToStored(packings))];
    }

    /// <summary>All records, oldest first, in bounded memory. Each stretch is read by itself, so that a slow reader holds nothing up.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="filter">Which.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">A record is damaged.</exception>
    public async IAsyncEnumerable<StoredDecision> ReadAll(string organisation, DecisionFilter filter)
    {
        DecisionPlace? after = null;
        while (true)
        {
            var (sql, parameters) = DecisionReadSql.Rows(organisation, filter, after, Stretch);
            var rows = (await store.Use(c => c.QueryAsync<DecisionRow>(sql, parameters)).ConfigureAwait(false)).AsList();
            foreach (var row in rows)
            {
                yield return row.ToStored(packings);
            }

            if (rows.Count < Stretch)
            {
                yield break;
            }

            after = new DecisionPlace(DateTimeOffset.FromUnixTimeMilliseconds(rows[^1].CreatedAt), rows[^1].Sequence);
        }
    }
}
