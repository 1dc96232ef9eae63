using System.Data.Common;
using Dapper;
using Npgsql;
using Recommender.Storage.Decisions;
using Recommender.Storage.Engines;

namespace Recommender.Storage;

/// <summary>A store on a PostgreSQL server, which several replicas of the service share.</summary>
public sealed class PostgresStore : Store
{
    private const string LockedHeads = """
        SELECT organisation AS Organisation, sequence AS Sequence, hash AS Hash
        FROM chain_heads
        WHERE organisation = ANY(@organisations)
        ORDER BY organisation
        FOR UPDATE
        """;

    private const string NewHead = """
        INSERT INTO chain_heads (organisation, sequence, hash)
        VALUES (@Organisation, @Sequence, @Hash)
        ON CONFLICT (organisation) DO NOTHING
        """;

    private readonly NpgsqlDataSource source;

    private PostgresStore(NpgsqlDataSource source) => this.source = source;

    /// <summary>Opens the store in a database, making its tables where they are missing.</summary>
    /// <param name="connectionString">Names server, database and user. It is kept to itself: no message holds it.</param>
    /// <exception cref="ArgumentException">It is no connection string.</exception>
    /// <exception cref="StoreUnavailableException">The server cannot be reached, or does not keep what it commits.</exception>
    public static PostgresStore Open(string connectionString)
    {
        var settings = PostgresSettings.Of(connectionString);
        NpgsqlDataSource? source = null;
        try
        {
            source = NpgsqlDataSource.Create(PostgresSettings.Durable(settings));
            PostgresMigration.Run(source);
            return new PostgresStore(source);
        }
        catch (StoreUnavailableException)
        {
            source?.Dispose();
            throw;
        }
        catch (Exception e) when (e is DbException or TimeoutException or IOException)
        {
            source?.Dispose();
            throw new StoreUnavailableException($"The store on {PostgresSettings.Place(settings)} cannot be opened: {e.Message}", e);
        }
    }

    /// <inheritdoc/>
    public override void CloseIdle() => source.Clear();

    /// <remarks>Source of the codes: PostgreSQL documentation, appendix A.</remarks>
    internal override StoreFault FaultOf(Exception exception) => exception is not PostgresException e ? StoreFault.Unavailable : e.SqlState switch
    {
        PostgresErrorCodes.SerializationFailure or PostgresErrorCodes.DeadlockDetected => StoreFault.Conflict,
        PostgresErrorCodes.DataCorrupted or PostgresErrorCodes.IndexCorrupted => StoreFault.Damaged,
        ['2', '2' or '3', ..] => StoreFault.BrokenRule,
        _ => StoreFault.Unavailable,
    };

    internal override Dictionary<string, ChainHead> LockHeads(DbConnection connection, DbTransaction transaction, IReadOnlyCollection<string> organisations)
    {
        var all = organisations.ToArray();
        var heads = Locked();
        if (heads.Count < all.Length)
        {
            // A chain's first record: its end is made first, so that there is a row to lock.
            ExecuteEach(connection, transaction, NewHead, [.. all.Where(o => !heads.ContainsKey(o)).Order(StringComparer.Ordinal).Select(ChainHead.Empty)]);
            heads = Locked();
        }

        return heads;

        Dictionary<string, ChainHead> Locked() =>
            connection.Query<ChainHead>(LockedHeads, new { organisations = all }, transaction).ToDictionary(h => h.Organisation, StringComparer.Ordinal);
    }

    internal override DbTransaction BeginLookUp(DbConnection connection) => connection.BeginTransaction();

    internal override void ExecuteEach<T>(DbConnection connection, DbTransaction transaction, string sql, IReadOnlyCollection<T> rows) =>
        PostgresBatch.Execute((NpgsqlConnection)connection, (NpgsqlTransaction)transaction, sql, rows);

    // Rows are written anew here and the old ones make room when the server cleans up; nobody who asks is given them meanwhile.
    internal override Task ForgetErased(DbConnection connection) => Task.CompletedTask;

    /// <inheritdoc/>
    protected override DbConnection Open() => source.OpenConnection();

    /// <inheritdoc/>
    protected override async ValueTask<DbConnection> OpenAsync() => await source.OpenConnectionAsync().ConfigureAwait(false);

    /// <inheritdoc/>
    protected override void Dispose(bool disposing) => source.Dispose();
}
