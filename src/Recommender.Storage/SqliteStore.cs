using Dapper;
using DbUp;
using Microsoft.Data.Sqlite;
using Recommender.Storage.Decisions;

namespace Recommender.Storage;

/// <summary>The embedded store: one SQLite file in write-ahead mode, every commit flushed to disk.</summary>
public sealed class SqliteStore : IDisposable
{
    private const string FileName = "recommender.db";

    /// <summary>Seconds that a statement waits for another process to let go of the file.</summary>
    private const int PatienceSeconds = 5;

    private readonly string connectionString;

    private SqliteStore(string connectionString) => this.connectionString = connectionString;

    /// <summary>Opens the store in a folder, making it and its tables where they are missing.</summary>
    /// <param name="folder">Folder of the file.</param>
    /// <exception cref="StoreUnavailableException">The folder or file cannot be used.</exception>
    public static SqliteStore Open(string folder)
    {
        var store = new SqliteStore(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, FileName), ForeignKeys = true, DefaultTimeout = PatienceSeconds }.ToString());
        try
        {
            Directory.CreateDirectory(folder);
            store.Migrate();
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

    /// <summary>An open connection. Flushing, and overwriting what is deleted, are set on each, since SQLite keeps them per connection.</summary>
    /// <exception cref="StoreUnavailableException">The file cannot be opened.</exception>
    public SqliteConnection Connect()
    {
        var connection = new SqliteConnection(connectionString);
        try
        {
            connection.Open();
            connection.Execute($"PRAGMA synchronous = FULL; PRAGMA busy_timeout = {PatienceSeconds * 1000}; PRAGMA secure_delete = ON;");
            return connection;
        }
        catch (SqliteException e)
        {
            connection.Dispose();
            throw new StoreUnavailableException($"The store cannot be opened: {e.Message}", e);
        }
    }

    /// <summary>Runs a piece of work on the store.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be used now.</exception>
    public async Task<T> Use<T>(Func<SqliteConnection, Task<T>> work)
    {
        try
        {
            await using var connection = Connect();
            return await work(connection).ConfigureAwait(false);
        }
        catch (SqliteException e)
        {
            CloseIdle();
            throw new StoreUnavailableException($"The store cannot be used: {e.Message}", e);
        }
    }

    /// <summary>Writes one mark, so that a store that cannot be written shows.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be written now.</exception>
    public void TryWrite()
    {
        using var connection = Connect();
        try
        {
            connection.Execute("INSERT INTO marks (name) VALUES ('writable') ON CONFLICT (name) DO UPDATE SET name = excluded.name");
        }
        catch (SqliteException e)
        {
            CloseIdle();
            throw new StoreUnavailableException($"The store cannot be written: {e.Message}", e);
        }
    }

    /// <summary>Closes idle connections. After trouble the next one is then opened anew: one that met a disk while it could not be written stays unable to write.</summary>
    public void CloseIdle()
    {
        using var connection = new SqliteConnection(connectionString);
        SqliteConnection.ClearPool(connection);
    }

    /// <summary>Closes idle connections; the last to close folds the write-ahead log into the file.</summary>
    public void Dispose() => CloseIdle();

    private void Migrate()
    {
        using var connection = Connect();
        connection.Execute("PRAGMA journal_mode = WAL;");
        var result = DeployChanges.To
            .SqliteDatabase(connectionString)
            .WithScriptsEmbeddedInAssembly(typeof(SqliteStore).Assembly, name => name.EndsWith(".sql", StringComparison.Ordinal))
            .WithTransactionPerScript()
            .WithVariablesDisabled()
            .LogToNowhere()
            .Build()
            .PerformUpgrade();
        if (!result.Successful)
        {
            throw new StoreUnavailableException($"The store's tables cannot be brought up to date: {result.Error.Message}", result.Error);
        }
    }
}
