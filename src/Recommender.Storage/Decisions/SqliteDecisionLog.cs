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
    /// <summary>Appends that may wait; beyond them the store counts as unavailable, so that memory stays bounded.</summary>
    private const int QueueLength = 4096;

    /// <summary>Appends that share a commit at most.</summary>
    private const int MostTogether = 512;

    private readonly SqliteStore store;
    private readonly Channel<Pending> queue = Channel.CreateBounded<Pending>(new BoundedChannelOptions(QueueLength) { SingleReader = true });
    private readonly Dictionary<string, byte[]> lastHashes = new(StringComparer.Ordinal);
    private readonly Task writer;
    private SqliteConnection? connection;

    /// <param name="store">The open store.</param>
    public SqliteDecisionLog(SqliteStore store)
    {
        this.store = store;
        writer = Task.Run(Write);
    }

    /// <inheritdoc/>
    public async ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim)
    {
        var pending = new Pending([.. records.Select(DecisionRow.Of)], claim is null ? null : ClaimRow.Of(records[0].Organisation, claim));
        return queue.Writer.TryWrite(pending)
            ? await pending.Done.Task.ConfigureAwait(false)
            : throw new StoreUnavailableException("Too many decisions wait to be stored.");
    }

    /// <inheritdoc/>
    public async Task<StoredDecision?> Read(string organisation, string decisionId)
    {
        var row = await store.Use(c => c.QuerySingleOrDefaultAsync<DecisionRow>(DecisionSql.Read, new { organisation, decisionId })).ConfigureAwait(false);
        return row?.ToStored();
    }

    /// <inheritdoc/>
    public async Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore)
    {
        var row = await store.Use(c => c.QuerySingleOrDefaultAsync<ClaimRow>(DecisionSql.ReadClaim,
            new { organisation, key, notBefore = notBefore.ToUnixTimeMilliseconds() })).ConfigureAwait(false);
        return row is null ? null : new StoredAnswer(row.BodyHash, Packing.Unpack(row.Response));
    }

    /// <summary>Stores what waits, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        queue.Writer.TryComplete();
        await writer.ConfigureAwait(false);
        connection?.Dispose();
    }

    private async Task Write()
    {
        var together = new List<Pending>(MostTogether);
        while (await queue.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            together.Clear();
            while (together.Count < MostTogether && queue.Reader.TryRead(out var pending))
            {
                together.Add(pending);
            }

            Commit(together);
        }
    }

    private void Commit(List<Pending> together)
    {
        try
        {
            connection ??= store.Connect();
            using var transaction = connection.BeginTransaction();
            foreach (var pending in together)
            {
                pending.Stored = Store(pending, transaction);
            }

            transaction.Commit();
        }
        catch (Exception e) when (e is SqliteException or StoreUnavailableException or InvalidOperationException)
        {
            // Nothing of this transaction is kept; the next one starts on a new connection, so that the store recovers when the disk does.
            Forget();
            var unavailable = e as StoreUnavailableException ?? new StoreUnavailableException($"The decision could not be stored: {e.Message}", e);
            together.ForEach(p => p.Done.TrySetException(unavailable));
            return;
        }

        together.ForEach(p => p.Done.TrySetResult(p.Stored));
    }

    private bool Store(Pending pending, SqliteTransaction transaction)
    {
        if (pending.Claim is { } claim && connection!.Execute(DecisionSql.Claim, claim, transaction) == 0)
        {
            return false;
        }

        foreach (var row in pending.Rows)
        {
            row.PreviousHash = LastHash(row.Organisation, transaction);
            row.Hash = RecordHash.Link(row.PreviousHash, row.ContentHash);
            lastHashes[row.Organisation] = row.Hash;
        }

        connection!.Execute(DecisionSql.Insert, pending.Rows, transaction);
        return true;
    }

    private byte[] LastHash(string organisation, SqliteTransaction transaction)
    {
        if (!lastHashes.TryGetValue(organisation, out var hash))
        {
            hash = connection!.QuerySingleOrDefault<byte[]>(DecisionSql.LastHash, new { organisation }, transaction) ?? RecordHash.Genesis.ToArray();
        }

        return hash;
    }

    private void Forget()
    {
        lastHashes.Clear();
        try
        {
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

        public bool Stored { get; set; }

        public TaskCompletionSource<bool> Done { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
