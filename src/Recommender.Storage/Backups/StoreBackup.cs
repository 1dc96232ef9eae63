using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Storage.Decisions;
using Recommender.Storage.Engines;

namespace Recommender.Storage.Backups;

/// <summary>
/// Backups of a store: a SQLite file of one moment of it, made while it is used, whichever engine it is on. It is restored to either engine. It holds what is
/// personal, so its file can be read by its owner alone.
/// </summary>
public static class StoreBackup
{
    private const UnixFileMode OwnerOnly = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a backup.</summary>
    /// <param name="store">The store.</param>
    /// <param name="file">File to make; its folder is there, it is not.</param>
    /// <exception cref="IOException">The file is there already or cannot be written; nothing is left behind.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public static void Make(Store store, string file)
    {
        if (File.Exists(file))
        {
            throw new IOException($"{file} is there already; give a name that is free.");
        }

        // Under a name of its own until it is whole: a backup that broke off is never taken for one.
        var part = Directory.CreateDirectory($"{Path.GetFullPath(file)}.part-{Guid.NewGuid():N}").FullName;
        try
        {
            var made = Path.Combine(part, SqliteStore.FileName);
            store.CopyTo(part);
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(made, OwnerOnly);
            }

            using (var stream = new FileStream(made, FileMode.Open, FileAccess.ReadWrite))
            {
                stream.Flush(flushToDisk: true);
            }

            File.Move(made, file);
        }
        finally
        {
            Directory.Delete(part, recursive: true);
        }
    }

    /// <summary>Restores a backup into a store that is empty, all or nothing. Every chain of it was walked before, and is walked again in the store.</summary>
    /// <param name="file">The backup; it is not changed.</param>
    /// <param name="store">The store.</param>
    /// <returns>What each organisation's chain holds; where one is broken nothing was restored.</returns>
    /// <exception cref="InvalidBackupException">The file is no backup that this program can restore, or the store is not empty; nothing was restored.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be written; nothing was restored.</exception>
    public static async Task<IReadOnlyList<RestoredChain>> Restore(string file, Store store)
    {
        MustBeEmpty(store);
        var folder = Directory.CreateTempSubdirectory("recommender-restore-").FullName;
        try
        {
            using var backup = OpenCopy(file, folder);
            var walked = await Walk(backup).ConfigureAwait(false);
            if (walked.Any(c => c.Check.FirstBroken is not null))
            {
                return walked;
            }

            store.UseNow(to => Copy(backup, store, to));
            return await Walk(store).ConfigureAwait(false);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>A copy that is brought up to date; a backup of an older program is restored as well.</summary>
    private static SqliteStore OpenCopy(string file, string folder)
    {
        var copy = Path.Combine(folder, SqliteStore.FileName);
        try
        {
            File.Copy(file, copy);
            using (var connection = new SqliteConnection($"Data Source={copy};Pooling=False"))
            {
                connection.Open();
                var unknown = connection.Query<string>("SELECT ScriptName FROM SchemaVersions ORDER BY ScriptName").Where(name => !MigrationScripts.IsForSqlite(name)).ToList();
                if (unknown.Count > 0)
                {
                    throw new InvalidBackupException($"{file} was made by a newer program; restore it with that one. This one does not know {unknown[0]}.");
                }
            }

            return SqliteStore.Open(folder);
        }
        catch (Exception e) when (e is SqliteException or StoreUnavailableException or IOException or UnauthorizedAccessException)
        {
            throw new InvalidBackupException($"{file} cannot be read as a backup: {e.Message}", e);
        }
    }

    private static void MustBeEmpty(Store store)
    {
        var filled = store.UseNow(connection =>
        {
            using var transaction = store.BeginLookUp(connection);
            return TableCopy.WithRows(store, connection, transaction);
        });
        if (filled.Count > 0)
        {
            throw new InvalidBackupException($"The store is not empty: {string.Join(", ", filled)} hold something. Restore into a new folder or a new database that no service has used yet.");
        }
    }

    private static bool Copy(Store backup, Store store, System.Data.Common.DbConnection to)
    {
        using var from = backup.Connect();
        using var snapshot = backup.BeginSnapshot(from);
        using var transaction = to.BeginTransaction();
        TableCopy.Run(backup, from, snapshot, store, to, transaction);
        store.ContinueNumbers(to, transaction);
        transaction.Commit();
        return true;
    }

    private static async Task<IReadOnlyList<RestoredChain>> Walk(Store store)
    {
        var verifier = new ChainVerifier(store, new Packings(store));
        var walked = new List<RestoredChain>();
        foreach (var organisation in await verifier.Organisations().ConfigureAwait(false))
        {
            walked.Add(new RestoredChain(organisation, await verifier.Verify(organisation).ConfigureAwait(false)));
        }

        return walked;
    }
}

/// <summary>A chain that was walked when its backup was restored.</summary>
/// <param name="Organisation">Whose.</param>
/// <param name="Check">What the walk found.</param>
public sealed record RestoredChain(string Organisation, ChainCheck Check);

/// <summary>A backup cannot be restored as it is, or not here.</summary>
/// <param name="message">Why, and what would be right.</param>
/// <param name="inner">Cause.</param>
public sealed class InvalidBackupException(string message, Exception? inner = null) : Exception(message, inner);
