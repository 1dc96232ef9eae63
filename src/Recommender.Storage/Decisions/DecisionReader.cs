using Dapper;
using Recommender.Storage.Outcomes;

namespace Recommender.Storage.Decisions;

/// <summary>Reads decisions: one, a page of a list, or all of them in a stream.</summary>
/// <param name="store">The open store.</param>
/// <param name="packings">What answers are packed with.</param>
public sealed class DecisionReader(Store store, Packings packings)
{
    /// <summary>Whole rows that are in memory at a time when all are read.</summary>
    private const int Stretch = 200;

    private readonly OutcomeStore outcomes = new(store);

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
        await foreach (var rows in Stretches(organisation, filter).ConfigureAwait(false))
        {
            foreach (var row in rows)
            {
                yield return row.ToStored(packings);
            }
        }
    }

    /// <summary>The same, each with all reports about it, oldest first; those of a stretch are read at once.</summary>
    /// <inheritdoc cref="ReadAll"/>
    public async IAsyncEnumerable<(StoredDecision Decision, IReadOnlyList<StoredOutcome> Reports)> ReadAllWithReports(string organisation, DecisionFilter filter)
    {
        await foreach (var rows in Stretches(organisation, filter).ConfigureAwait(false))
        {
            var reports = await outcomes.OfDecisions(organisation, [.. rows.Select(r => r.DecisionId)]).ConfigureAwait(false);
            foreach (var row in rows)
            {
                yield return (row.ToStored(packings), [.. reports[row.DecisionId]]);
            }
        }
    }

    private async IAsyncEnumerable<IReadOnlyList<DecisionRow>> Stretches(string organisation, DecisionFilter filter)
    {
        DecisionPlace? after = null;
        while (true)
        {
            var (sql, parameters) = DecisionReadSql.Rows(organisation, filter, after, Stretch);
            var rows = (await store.Use(c => c.QueryAsync<DecisionRow>(sql, parameters)).ConfigureAwait(false)).AsList();
            if (rows.Count > 0)
            {
                yield return rows;
            }

            if (rows.Count < Stretch)
            {
                yield break;
            }

            after = new DecisionPlace(DateTimeOffset.FromUnixTimeMilliseconds(rows[^1].CreatedAt), rows[^1].Sequence);
        }
    }
}
