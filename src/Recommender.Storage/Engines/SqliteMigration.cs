using DbUp;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Engines;

/// <summary>Brings the tables of a SQLite file up to date.</summary>
internal static class SqliteMigration
{
    private const string LockName = "recommender.lock";
    private const int WaitMilliseconds = 25;

    /// <summary>What a file that another process holds is told by: EWOULDBLOCK, ERROR_SHARING_VIOLATION.</summary>
    private static readonly int[] HeldByAnother = [11, unchecked((int)0x80070020)];

    /// <summary>Held while tables are made: of two processes that open a new store at once, one waits for the other.</summary>
    /// <exception cref="StoreUnavailableException">Another process holds it for too long.</exception>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder must not be written.</exception>
    public static IDisposable Alone(string folder)
    {
        var path = Path.Combine(folder, LockName);
        for (var waited = 0; ; waited += WaitMilliseconds)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1);
            }
            catch (IOException e) when (HeldByAnother.Contains(e.HResult))
            {
                if (waited > Store.PatienceSeconds * 4000)
                {
                    throw new StoreUnavailableException($"Another program has been opening the store in {folder} for {waited / 1000} seconds.", e);
                }

                Thread.Sleep(WaitMilliseconds);
            }
        }
    }

    /// <exception cref="StoreUnavailableException">They cannot be brought up to date.</exception>
    public static void Run(string connectionString)
    {
        var result = DeployChanges.To
            .SqliteDatabase(connectionString)
            .WithScriptsEmbeddedInAssembly(typeof(SqliteMigration).Assembly, MigrationScripts.IsForSqlite)
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
