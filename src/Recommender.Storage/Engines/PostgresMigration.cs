using Dapper;
using DbUp;
using Npgsql;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Engines;

/// <summary>Brings the tables of a PostgreSQL database up to date. One replica does, the others wait.</summary>
internal static class PostgresMigration
{
    /// <summary>Names the lock among those of the database.</summary>
    private const long LockKey = 0x7265_636f_6d6d;

    /// <summary>Seconds that a replica waits for another to make the tables.</summary>
    private const int Patience = 60;

    /// <exception cref="StoreUnavailableException">They cannot be brought up to date.</exception>
    public static void Run(NpgsqlDataSource source)
    {
        using var alone = source.OpenConnection();
        alone.Execute("SELECT set_config('lock_timeout', '0', false)");
        alone.Execute("SELECT pg_advisory_lock(@LockKey)", new { LockKey }, commandTimeout: Patience);
        var result = DeployChanges.To
            .PostgresqlDatabase(new DbUp.Postgresql.PostgresqlConnectionManager(source))
            .WithScriptsEmbeddedInAssembly(typeof(PostgresMigration).Assembly, MigrationScripts.IsForPostgres)
            .WithPreprocessor(new PostgresWords())
            .WithTransactionPerScript()
            .WithVariablesDisabled()
            .LogToNowhere()
            .Build()
            .PerformUpgrade();
        alone.Execute("SELECT pg_advisory_unlock(@LockKey)", new { LockKey });
        if (!result.Successful)
        {
            throw new StoreUnavailableException($"The store's tables cannot be brought up to date: {result.Error.Message}", result.Error);
        }
    }
}
