using Dapper;
using Recommender.Storage.Decisions;
using Recommender.Storage.Engines;

namespace Recommender.Storage;

/// <summary>Which store is meant. Says where it is, and never the connection string.</summary>
public sealed class StoreAddress
{
    private readonly string? folder;
    private readonly string? connectionString;

    private StoreAddress(string? folder, string? connectionString) => (this.folder, this.connectionString) = (folder, connectionString);

    /// <summary>The embedded store in a folder.</summary>
    public static StoreAddress InFolder(string folder) => new(folder, null);

    /// <summary>The store in a PostgreSQL database.</summary>
    /// <exception cref="ArgumentException">It is no connection string. The message holds nothing of it.</exception>
    public static StoreAddress OnPostgres(string connectionString)
    {
        _ = PostgresSettings.Of(connectionString);
        return new StoreAddress(null, connectionString);
    }

    /// <summary>Opens the store, making its tables where they are missing.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be opened.</exception>
    public Store Open() => connectionString is null ? SqliteStore.Open(folder!) : PostgresStore.Open(connectionString);

    /// <summary>Whether there is a store already: its file, or its tables.</summary>
    /// <exception cref="StoreUnavailableException">The server cannot be asked.</exception>
    public bool HasStore()
    {
        if (connectionString is null)
        {
            return SqliteStore.IsIn(folder!);
        }

        try
        {
            using var connection = new Npgsql.NpgsqlConnection(connectionString);
            return connection.ExecuteScalar<bool>("SELECT to_regclass('chain_heads') IS NOT NULL");
        }
        catch (Exception e) when (e is System.Data.Common.DbException or TimeoutException or IOException)
        {
            throw new StoreUnavailableException($"The store on {this} cannot be opened: {e.Message}", e);
        }
    }

    /// <summary>Where it is.</summary>
    public override string ToString() => connectionString is null ? folder! : PostgresSettings.Place(PostgresSettings.Of(connectionString));
}
