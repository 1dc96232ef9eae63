using System.Data;
using System.Data.Common;
using System.Diagnostics;
using System.Threading.Channels;
using Dapper;
using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>
/// Decisions in a store. Callers hand their rows to one writer, which commits all that wait in one transaction: a flush each would
/// set the ceiling. A caller is answered after the commit it shared.
/// </summary>
public sealed class DecisionLog : IDecisionLog, IAsyncDisposable
{
    /// <summary>Bytes that may wait; beyond them the store counts as unavailable, so that memory stays bounded.</summary>
    private const long MostBytesWaiting = 64 * 1024 * 1024;

    /// <summary>Records that share a commit, about: an append is never split.</summary>
    private const int MostTogether = 512;

    private readonly Store store;
    private readonly Packings packings;
    private readonly DecisionReader reader;
    private readonly Channel<PendingAppend> queue = Channel.CreateUnbounded<PendingAppend>(new UnboundedChannelOptions { SingleReader = true });
    private readonly Task writer;
    private DbConnection? connection;
    private long bytesWaiting;

    /// <param name="store">The open store.</param>
    /// <param name="packings">What answers are packed with.</param>
    public DecisionLog(Store store, Packings packings)
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

        return await Append(new PendingAppend(records[0].Organisation, [.. records.Select(r => DecisionRow.Of(r, packings))], claim is null ? null : ClaimRow.Of(records[0].Organisation, claim, packings))).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public ValueTask<bool> Claim(string organisation, IdempotencyClaim claim) => Append(new PendingAppend(organisation, [], ClaimRow.Of(organisation, claim, packings)));

    private async ValueTask<bool> Append(PendingAppend pending)
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
        await using (var transaction = await c.BeginTransactionAsync().ConfigureAwait(false))
        {
            // No append of the organisation comes between: it is erased as a whole, or comes after as one that was sent later.
            store.LockHeads(c, transaction, [organisation]);
            erased = await c.ExecuteAsync(DecisionSql.EraseDecisions, about, transaction).ConfigureAwait(false);
            await c.ExecuteAsync(DecisionSql.EraseClaims, about, transaction).ConfigureAwait(false);
            await transaction.CommitAsync().ConfigureAwait(false);
        }

        await store.ForgetErased(c).ConfigureAwait(false);
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
        var together = new List<PendingAppend>();
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

    private void Commit(IReadOnlyList<PendingAppend> together, int conflicts = 0)
    {
        var (committing, begun, reused) = (false, Stopwatch.GetTimestamp(), connection is not null);
        try
        {
            connection ??= store.Connect();
            using var transaction = connection.BeginTransaction();
            Store(together, transaction);
            committing = true;
            transaction.Commit();
        }
        catch (Exception e)
        {
            // Whatever it was, the writer lives on, and every caller hears what became of its append.
            var wasClosed = reused && !committing && connection!.State != ConnectionState.Open;
            Forget();
            if (wasClosed)
            {
                // The server had closed the connection since it was last used, as when it was started again. No commit was asked for, so nothing can be stored yet.
                Commit(together, conflicts);
                return;
            }

            switch (store.FaultOf(e))
            {
                case StoreFault.Conflict when conflicts < Recommender.Storage.Store.MostConflicts:
                    Thread.Sleep(Recommender.Storage.Store.Pause(conflicts));
                    Commit(together, conflicts + 1);
                    break;
                case StoreFault.BrokenRule when together.Count > 1:
                    // One append breaks a rule of the store; those that shared its transaction are not to suffer for it.
                    foreach (var pending in together)
                    {
                        Commit([pending]);
                    }

                    break;
                default:
                    Fail(together, e, committing);
                    break;
            }

            return;
        }

        StoreMetrics.Committed(together.Sum(p => p.Rows.Length), begun);
        Answer(together);
    }

    private void Store(IReadOnlyList<PendingAppend> together, DbTransaction transaction)
    {
        // Read under the transaction's lock and forgotten with it: another process may have appended since, and what was rolled back never was.
        var heads = store.LockHeads(connection!, transaction, [.. together.Select(p => p.Organisation).Distinct(StringComparer.Ordinal)]);
        var moved = new HashSet<string>(StringComparer.Ordinal);
        var rows = new List<DecisionRow>();
        foreach (var pending in together)
        {
            pending.Stored = pending.Claim is not { } claim || Store(claim, transaction);
            if (!pending.Stored)
            {
                continue;
            }

            foreach (var row in pending.Rows)
            {
                heads[row.Organisation] = row.Follow(heads[row.Organisation]);
                moved.Add(row.Organisation);
                rows.Add(row);
            }
        }

        store.ExecuteEach(connection!, transaction, DecisionSql.Insert, rows);
        store.ExecuteEach(connection!, transaction, DecisionSql.InsertExercise, [.. rows.SelectMany(r => r.Exercises.Select(exercise => new { r.Organisation, Exercise = exercise, r.CreatedAt, r.Sequence }))]);
        store.ExecuteEach(connection!, transaction, DecisionSql.MoveHead, [.. moved.Order(StringComparer.Ordinal).Select(o => heads[o])]);
    }

    private bool Store(ClaimRow claim, DbTransaction transaction)
    {
        if (claim.DecisionId is not null && connection!.ExecuteScalar<long>(DecisionSql.IsErased, claim, transaction) > 0)
        {
            return false;
        }

        connection!.Execute(DecisionSql.Sweep, claim, transaction);
        if (connection!.Execute(DecisionSql.Claim, claim, transaction) == 0)
        {
            return false;
        }

        connection!.Execute(DecisionSql.ForgetClaimAthletes, claim, transaction);
        store.ExecuteEach(connection!, transaction, DecisionSql.ClaimAthlete, [.. claim.AthleteRefs.Select(athleteRef => new { claim.Organisation, AthleteRef = athleteRef, claim.Key })]);
        return true;
    }

    private static void Answer(IReadOnlyList<PendingAppend> together)
    {
        foreach (var pending in together)
        {
            pending.Done.TrySetResult(pending.Stored);
        }
    }

    private void Fail(IReadOnlyList<PendingAppend> together, Exception e, bool committing)
    {
        var fate = committing ? CommitFate.Of(store, together) : false;
        if (fate == true)
        {
            Answer(together);
            return;
        }

        StoreMetrics.Failed();
        var atFault = e is ArgumentException || store.FaultOf(e) == StoreFault.BrokenRule;
        foreach (var pending in together)
        {
            pending.Done.TrySetException(
                atFault ? new ArgumentException($"The decision breaks a rule of the store: {e.Message}", e)
                : new StoreUnavailableException($"The decision could not be stored: {e.Message}", e) { MayBeStored = fate is null });
        }
    }

    /// <summary>Gives the connection up, so that the store recovers when the disk, the file or the server does.</summary>
    private void Forget()
    {
        try
        {
            store.CloseIdle();
            connection?.Dispose();
        }
        catch (Exception e) when (e is DbException or IOException)
        {
            // A broken connection may fail to close; it is given up either way.
        }

        connection = null;
    }
}
