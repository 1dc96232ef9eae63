using System.Diagnostics;
using System.Threading.Channels;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>
/// Decisions in SQLite. Callers hand their rows to one writer, which commits all that wait in one transaction: a flush each would
/// set the ceiling. A caller is answered after the commit it shared.
/// </summary>
public sealed class SqliteDecisionLog : IDecisionLog, IAsyncDisposable
{
    /// <summary>Bytes that may wait; beyond them the store counts as unavailable, so that memory stays bounded.</summary>
    private const long MostBytesWaiting = 64 * 1024 * 1024;

    /// <summary>Records that share a commit, about: an append is never split.</summary>
    private const int MostTogether = 512;

    /// <summary>SQLITE_CONSTRAINT: what was to be stored is at fault, not the store.</summary>
    private const int Constraint = 19;

    private readonly SqliteStore store;
    private readonly Packings packings;
    private readonly DecisionReader reader;
    private readonly Channel<Pending> queue = Channel.CreateUnbounded<Pending>(new UnboundedChannelOptions { SingleReader = true });
    private readonly Task writer;
    private SqliteConnection? connection;
    private long bytesWaiting;

    /// <param name="store">The open store.</param>
    /// <param name="packings">What answers are packed with.</param>
    public SqliteDecisionLog(SqliteStore store, Packings packings)
    {
        this.store = store;
        this.packings = packings;
        reader = new DecisionReader(store, packings);
        writer = Task.Run(Write);
    }

    /// <inheritdoc/>
    public async ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim)
    {
        if (records.Count == 0 || records.Any(r => r.Organisation != records[0].Organisation))
        {
            throw new ArgumentException("Give at least one record, all of one organisation.", nameof(records));
        }

        return await Append(new Pending([.. records.Select(r => DecisionRow.Of(r, packings))], claim is null ? null : ClaimRow.Of(records[0].Organisation, claim, packings))).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public ValueTask<bool> Claim(string organisation, IdempotencyClaim claim) => Append(new Pending([], ClaimRow.Of(organisation, claim, packings)));

    private async ValueTask<bool> Append(Pending pending)
    {
        using var step = StoreMetrics.Append();
        try
        {
            return Interlocked.Add(ref bytesWaiting, pending.Bytes) > MostBytesWaiting ? throw new StoreUnavailableException("Too many decisions wait to be stored.")
                : !queue.Writer.TryWrite(pending) ? throw new StoreUnavailableException("The log is closed.")
                : await pending.Done.Task.ConfigureAwait(false);
        }
        finally
        {
            Interlocked.Add(ref bytesWaiting, -pending.Bytes);
        }
    }

    /// <inheritdoc/>
    public Task<StoredDecision?> Read(string organisation, string decisionId) => reader.Read(organisation, decisionId);

    /// <inheritdoc/>
    public async Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore)
    {
        var row = await store.Use(c => c.QuerySingleOrDefaultAsync<ClaimRow>(DecisionSql.ReadClaim,
            new { organisation, key, notBefore = notBefore.ToUnixTimeMilliseconds() })).ConfigureAwait(false);
        return row is null ? null : new StoredAnswer(row.BodyHash, packings.Unpack(row.Response), row.Status);
    }

    /// <inheritdoc/>
    public Task<int> Erase(string organisation, string athleteRef) => store.Use(async c =>
    {
        var about = new { organisation, athleteRef };
        int erased;
        await using (var transaction = c.BeginTransaction())
        {
            erased = await c.ExecuteAsync(DecisionSql.EraseDecisions, about, transaction).ConfigureAwait(false);
            await c.ExecuteAsync(DecisionSql.EraseClaims, about, transaction).ConfigureAwait(false);
            await transaction.CommitAsync().ConfigureAwait(false);
        }

        // What was erased is overwritten in the file (secure_delete) and must not live on in the write-ahead log.
        await c.ExecuteAsync("PRAGMA wal_checkpoint(TRUNCATE)").ConfigureAwait(false);
        return erased;
    });

    /// <summary>Stores what waits, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        queue.Writer.TryComplete();
        await writer.ConfigureAwait(false);
        connection?.Dispose();
    }

    private async Task Write()
    {
        var together = new List<Pending>();
        while (await queue.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            together.Clear();
            var records = 0;
            while (records < MostTogether && queue.Reader.TryRead(out var pending))
            {
                together.Add(pending);
                records += pending.Rows.Length;
            }

            Commit(together);
        }
    }

    private void Commit(IReadOnlyList<Pending> together)
    {
        var begun = Stopwatch.GetTimestamp();
        try
        {
            connection ??= store.Connect();
            using var transaction = connection.BeginTransaction();
            // Read under the transaction's lock and forgotten with it: another process may have appended since, and what was rolled back never was.
            var heads = new Dictionary<string, ChainHead>(StringComparer.Ordinal);
            foreach (var pending in together)
            {
                pending.Stored = Store(pending, heads, transaction);
            }

            connection.Execute(DecisionSql.MoveHead, heads.Values, transaction);
            transaction.Commit();
        }
        catch (Exception e)
        {
            StoreMetrics.Failed();
            // Whatever it was: nothing of this transaction is kept, every caller hears of it, and the writer lives on.
            Forget();
            Fail(together, e);
            return;
        }

        StoreMetrics.Committed(together.Sum(p => p.Rows.Length), begun);
        foreach (var pending in together)
        {
            pending.Done.TrySetResult(pending.Stored);
        }
    }

    private bool Store(Pending pending, Dictionary<string, ChainHead> heads, SqliteTransaction transaction)
    {
        if (pending.Claim is { } claim && !Store(claim, transaction))
        {
            return false;
        }

        foreach (var row in pending.Rows)
        {
            var head = heads.TryGetValue(row.Organisation, out var last) ? last
                : connection!.QuerySingleOrDefault<ChainHead>(DecisionSql.Head, new { organisation = row.Organisation }, transaction) ?? ChainHead.Empty(row.Organisation);
            heads[row.Organisation] = row.Follow(head);
        }

        connection!.Execute(DecisionSql.Insert, pending.Rows, transaction);
        connection!.Execute(DecisionSql.InsertExercise, pending.Rows.SelectMany(r => r.Exercises.Select(exercise => new { r.Organisation, Exercise = exercise, r.CreatedAt, r.Sequence })), transaction);
        return true;
    }

    private bool Store(ClaimRow claim, SqliteTransaction transaction)
    {
        connection!.Execute(DecisionSql.Sweep, claim, transaction);
        if (connection!.Execute(DecisionSql.Claim, claim, transaction) == 0)
        {
            return false;
        }

        connection!.Execute(DecisionSql.ForgetClaimAthletes, claim, transaction);
        connection!.Execute(DecisionSql.ClaimAthlete, claim.AthleteRefs.Select(athleteRef => new { claim.Organisation, AthleteRef = athleteRef, claim.Key }), transaction);
        return true;
    }

    private void Fail(IReadOnlyList<Pending> together, Exception e)
    {
        var atFault = e is SqliteException { SqliteErrorCode: Constraint } or ArgumentException;
        if (atFault && together.Count > 1)
        {
            // One append breaks a rule of the store; those that shared its transaction are not to suffer for it.
            foreach (var pending in together)
            {
                Commit([pending]);
            }

            return;
        }

        foreach (var pending in together)
        {
            pending.Done.TrySetException(atFault
                ? new ArgumentException($"The decision breaks a rule of the store: {e.Message}", e)
                : new StoreUnavailableException($"The decision could not be stored: {e.Message}", e));
        }
    }

    /// <summary>Gives the connection up, so that the store recovers when the disk or the file does.</summary>
    private void Forget()
    {
        try
        {
            store.CloseIdle();
            connection?.Dispose();
        }
        catch (SqliteException)
        {
            // A broken connection may fail to close; it is given up either way.
        }

        connection = null;
    }

    private sealed class Pending(DecisionRow[] rows, ClaimRow? claim)
    {
        public DecisionRow[] Rows { get; } = rows;

        public ClaimRow? Claim { get; } = claim;

        public long Bytes { get; } = rows.Sum(r => (long)r.Request.Length + r.Answer.Length + (r.Personal?.Length ?? 0)) + (claim?.Response.Length ?? 0);

        public bool Stored { get; set; }

        public TaskCompletionSource<bool> Done { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
