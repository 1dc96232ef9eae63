using System.Data.Common;
using System.Diagnostics;
using Dapper;

namespace Recommender.Storage.Decisions;

/// <summary>
/// Finds out what became of a commit whose answer was lost on the way. It is asked under the locks that the transaction held, so that one which the server still
/// works on has ended; and a commit is whole, so that one of its rows speaks for all. Nothing is ever stored again on a guess.
/// </summary>
internal static class CommitFate
{
    private const int BetweenMilliseconds = 200;

    /// <summary>How long it is asked for; callers wait for the answer.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2 * Store.PatienceSeconds);

    /// <returns>Whether it was committed; null when nobody can tell now.</returns>
    public static bool? Of(Store store, IReadOnlyList<PendingAppend> together)
    {
        var witness = together.FirstOrDefault(p => p.Stored && p.Rows.Length > 0) ?? together.FirstOrDefault(p => p.Stored);
        if (witness is null)
        {
            return true;
        }

        var asking = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                return store.UseNow(c => IsThere(store, c, witness));
            }
            catch (StoreUnavailableException) when (asking.Elapsed < Patience)
            {
                Thread.Sleep(BetweenMilliseconds);
            }
            catch (StoreUnavailableException)
            {
                return null;
            }
        }
    }

    private static bool IsThere(Store store, DbConnection connection, PendingAppend witness)
    {
        using var transaction = store.BeginLookUp(connection);
        store.LockHeads(connection, transaction, [witness.Organisation]);
        return witness.Rows is [var row, ..]
            ? connection.ExecuteScalar<long>(DecisionSql.IsAppended, row, transaction) > 0
            : connection.QuerySingleOrDefault<ClaimRow>(DecisionSql.ReadClaim, new { organisation = witness.Organisation, key = witness.Claim!.Key, notBefore = witness.Claim.CreatedAt }, transaction) is { } claim
                && claim.BodyHash.AsSpan().SequenceEqual(witness.Claim.BodyHash) && claim.Response.AsSpan().SequenceEqual(witness.Claim.Response);
    }
}
