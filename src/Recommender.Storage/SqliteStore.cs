using System.Data.Common;
using System.Runtime.CompilerServices;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Storage.Backups;
using Recommender.Storage.Decisions;
using Recommender.Storage.Engines;
using SQLitePCL;

namespace Recommender.Storage;

/// <summary>The embedded store: one SQLite file in write-ahead mode, every commit flushed to disk.</summary>
public sealed class SqliteStore : Store
{
    /// <summary>Name of the file in its folder.</summary>
    internal const string FileName = "recommender.db";

    /// <summary>SQLITE_CONSTRAINT: what was to be stored is at fault, not the store.</summary>
    private const int Constraint = 19;

    private readonly string connectionString;

    /// <summary>Connections of the engine that are set up; a pooled one keeps its settings.</summary>
    private readonly ConditionalWeakTable<sqlite3, SqliteStore> prepared = [];

    private SqliteStore(string connectionString) => this.connectionString = connectionString;

    /// <summary>Opens the store in a folder, making it and its tables where they are missing.</summary>
    /// <param name="folder">Folder of the file.</param>
    /// <exception cref="StoreUnavailableException">The folder or file cannot be used.</exception>
    public static SqliteStore Open(string folder)
    {
        var store = new SqliteStore(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, FileName), DefaultTimeout = PatienceSeconds }.ToString());
        try
        {
            Directory.CreateDirectory(folder);
            using var alone = SqliteMigration.Alone(folder);
            using var connection = store.Open();
            connection.Execute("PRAGMA journal_mode = WAL;");
            SqliteMigration.Run(store.connectionString);
            return store;
        }
        catch (StoreUnavailableException)
        {
            store.Dispose();
            throw;
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            store.Dispose();
            throw new StoreUnavailableException($"The store in {folder} cannot be opened: {e.Message}", e);
        }
    }

    /// <summary>Whether there is a store in a folder.</summary>
    public static bool IsIn(string folder) => File.Exists(Path.Combine(folder, FileName));

    /// <summary>Closes idle connections: one that met a disk while it could not be written stays unable to write. The last to close folds the write-ahead log into the file.</summary>
    public override void CloseIdle()
    {
        using var connection = new SqliteConnection(connectionString);
        SqliteConnection.ClearPool(connection);
    }

    internal override StoreFault FaultOf(Exception exception) => exception is not SqliteException e ? StoreFault.Unavailable : e.SqliteErrorCode switch
    {
        Constraint => StoreFault.BrokenRule,
        SQLitePCL.raw.SQLITE_CORRUPT or SQLitePCL.raw.SQLITE_NOTADB => StoreFault.Damaged,
        _ => StoreFault.Unavailable,
    };

    // A transaction of this engine has the only write lock from its first statement on.
    internal override Dictionary<string, ChainHead> LockHeads(DbConnection connection, DbTransaction transaction, IReadOnlyCollection<string> organisations) => organisations.ToDictionary(
        organisation => organisation,
        organisation => connection.QuerySingleOrDefault<ChainHead>(DecisionSql.Head, new { organisation }, transaction) ?? ChainHead.Empty(organisation),
        StringComparer.Ordinal);

    internal override DbTransaction BeginLookUp(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: true);

    internal override void ExecuteEach<T>(DbConnection connection, DbTransaction transaction, string sql, IReadOnlyCollection<T> rows) => connection.Execute(sql, rows, transaction);

    // What was erased is overwritten in the file (secure_delete) and must not live on in the write-ahead log.
    internal override Task ForgetErased(DbConnection connection) => connection.ExecuteAsync("PRAGMA wal_checkpoint(TRUNCATE)");

    internal override DbTransaction BeginSnapshot(DbConnection connection) => BeginLookUp(connection);

    // Written anew, so that no page is in it that was given up.
    internal override void CopyTo(string folder) => UseNow(c => c.Execute("VACUUM INTO @file", new { file = Path.Combine(folder, FileName) }, commandTimeout: 0));

    internal override IReadOnlyList<StoredTable> Tables(DbConnection connection) => SqliteTables.Of((SqliteConnection)connection);

    internal override void InsertAll(DbConnection connection, DbTransaction transaction, StoredTable table, IEnumerable<object[]> rows) =>
        SqliteTables.Fill((SqliteConnection)connection, (SqliteTransaction)transaction, table, rows);

    internal override void ContinueNumbers(DbConnection connection, DbTransaction transaction)
    {
        // The file itself keeps the highest number.
    }

    /// <summary>Flushing, overwriting what is deleted and keeping to references are set once on each connection of the pool, since SQLite keeps them per connection.</summary>
    protected override DbConnection Open()
    {
        var connection = new SqliteConnection(connectionString);
        try
        {
            connection.Open();
            if (!prepared.TryGetValue(connection.Handle!, out _))
            {
                connection.Execute($"PRAGMA synchronous = FULL; PRAGMA busy_timeout = {PatienceSeconds * 1000}; PRAGMA secure_delete = ON; PRAGMA foreign_keys = ON;");
                prepared.AddOrUpdate(connection.Handle!, this);
            }

            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    protected override ValueTask<DbConnection> OpenAsync() => ValueTask.FromResult(Open());

    /// <inheritdoc/>
    protected override void Dispose(bool disposing) => CloseIdle();
}
