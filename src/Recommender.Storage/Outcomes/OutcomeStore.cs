using Dapper;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Outcomes;

/// <summary>What was done with picks: appended, never changed but by erasing a person.</summary>
/// <param name="store">The open store.</param>
public sealed class OutcomeStore(Store store)
{
    private const int PageLength = 2000;

    /// <summary>Appends a report as the last one about its pick; the same report as the last changes nothing.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="outcome">The report; its entry is given here.</param>
    /// <returns>The report as it is kept, and whether it was appended now; null, with nothing kept, when what is personal in the decision was erased.</returns>
    /// <exception cref="StoreUnavailableException">It could not be kept; nothing was.</exception>
    public Task<(StoredOutcome Kept, bool New)?> Append(string organisation, StoredOutcome outcome) => store.Use<(StoredOutcome, bool)?>(async c =>
    {
        await using var transaction = await c.BeginTransactionAsync().ConfigureAwait(false);

        // Under the lock that an erasure of decisions takes: the report comes before it and is erased with the others, or comes after it and is refused.
        store.LockHeads(c, transaction, [organisation]);
        if (await c.ExecuteScalarAsync<long>(DecisionSql.IsErased, new { Organisation = organisation, outcome.DecisionId }, transaction).ConfigureAwait(false) > 0)
        {
            return null;
        }

        var last = await c.QuerySingleOrDefaultAsync<OutcomeRow>(OutcomeSql.Last, new { organisation, decisionId = outcome.DecisionId, exercise = outcome.Exercise }, transaction).ConfigureAwait(false);
        if (last is not null && last.Report == outcome.Report)
        {
            return (last.ToStored(), false);
        }

        var next = outcome with { Entry = (int)(last?.Entry ?? 0) + 1 };
        await c.ExecuteAsync(OutcomeSql.Insert, new
        {
            Organisation = organisation,
            next.DecisionId,
            next.Exercise,
            next.Entry,
            CreatedAt = next.CreatedAt.ToUnixTimeMilliseconds(),
            next.Verdict,
            next.AthleteRef,
            next.Coach,
            next.Report,
            next.Facts,
            Pained = next.Pained ? 1 : 0,
        }, transaction).ConfigureAwait(false);
        await transaction.CommitAsync().ConfigureAwait(false);
        return (next, true);
    });

    /// <summary>All reports about a decision, oldest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public Task<IReadOnlyList<StoredOutcome>> OfDecision(string organisation, string decisionId) => Read(OutcomeSql.OfDecision, new { organisation, decisionId });

    /// <summary>All reports about each of some decisions, oldest first.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="decisionIds">At least one, at most a few hundred.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<ILookup<string, StoredOutcome>> OfDecisions(string organisation, IReadOnlyList<string> decisionIds)
    {
        var parameters = new DynamicParameters(new { organisation });
        foreach (var (i, decisionId) in decisionIds.Index())
        {
            parameters.Add($"d{i}", decisionId);
        }

        return (await Read(OutcomeSql.OfDecisions(decisionIds.Count), parameters).ConfigureAwait(false)).ToLookup(o => o.DecisionId, StringComparer.Ordinal);
    }

    /// <summary>What hurt an athlete since a moment, by the last report about each pick; oldest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public Task<IReadOnlyList<StoredOutcome>> Pained(string organisation, string athleteRef, DateTimeOffset since) =>
        Read(OutcomeSql.Pained, new { organisation, athleteRef, since = since.ToUnixTimeMilliseconds() });

    /// <summary>The last report about every pick, decision after decision, oldest decision first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public Task<IReadOnlyList<StoredOutcome>> All(string organisation) => Read(OutcomeSql.All, new { organisation });

    /// <summary>The same in pages, so that a season's reports need not be in memory at once.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="take">Takes a page.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task Each(string organisation, Action<IReadOnlyList<StoredOutcome>> take)
    {
        var (decisionId, exercise) = ("", "");
        while (await Read(OutcomeSql.Page, new { organisation, decisionId, exercise, limit = PageLength }).ConfigureAwait(false) is { Count: > 0 } page)
        {
            take(page);
            (decisionId, exercise) = (page[^1].DecisionId, page[^1].Exercise);
        }
    }

    /// <summary>Organisations that have reports.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<string>> Organisations() => [.. await store.Use(c => c.QueryAsync<string>(OutcomeSql.Organisations)).ConfigureAwait(false)];

    /// <summary>Erases what is personal in an athlete's reports; that a pick was used, swapped or declined stays. The athlete's decisions are erased first: from then on no report about them is taken.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="athleteRef">The athlete's ref.</param>
    /// <param name="strip">A report and what it is learned from, without what is personal.</param>
    /// <returns>How many reports it was erased from.</returns>
    /// <exception cref="StoreUnavailableException">It could not be erased; nothing was.</exception>
    public Task<int> Erase(string organisation, string athleteRef, Func<string, string?, (string Report, string? Facts)> strip) => store.Use(async c =>
    {
        List<OutcomeRow> rows;
        await using (var transaction = await c.BeginTransactionAsync().ConfigureAwait(false))
        {
            rows = (await c.QueryAsync<OutcomeRow>(OutcomeSql.OfAthlete, new { organisation, athleteRef }, transaction).ConfigureAwait(false)).AsList();
            foreach (var row in rows)
            {
                var (report, facts) = strip(row.Report, row.Facts);
                await c.ExecuteAsync(OutcomeSql.Erase, new { organisation, decisionId = row.DecisionId, exercise = row.Exercise, entry = row.Entry, report, facts }, transaction).ConfigureAwait(false);
            }

            await transaction.CommitAsync().ConfigureAwait(false);
        }

        await store.ForgetErased(c).ConfigureAwait(false);
        return rows.Count;
    });

    private async Task<IReadOnlyList<StoredOutcome>> Read(string sql, object parameters) =>
        [.. (await store.Use(c => c.QueryAsync<OutcomeRow>(sql, parameters)).ConfigureAwait(false)).Select(r => r.ToStored())];

    private sealed class OutcomeRow
    {
        public string DecisionId { get; init; } = "";

        public string Exercise { get; init; } = "";

        public long Entry { get; init; }

        public long CreatedAt { get; init; }

        public string Verdict { get; init; } = "";

        public string? AthleteRef { get; init; }

        public string? Coach { get; init; }

        public string Report { get; init; } = "";

        public string? Facts { get; init; }

        public long Pained { get; init; }

        public long Erased { get; init; }

        public StoredOutcome ToStored() => new(DecisionId, Exercise, (int)Entry, DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt), Verdict, AthleteRef, Coach, Report, Facts, Pained != 0, Erased != 0);
    }
}
