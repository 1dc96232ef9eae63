using System.Data.Common;
using Dapper;
using Recommender.Storage.Backups;
using Recommender.Storage.Decisions;
using Recommender.Storage.Engines;

namespace Recommender.Storage;

/// <summary>
/// Where decisions, versions, profiles and all else are kept. One SQL text serves both engines; what truly differs between them are the members that
/// <see cref="SqliteStore"/> and <see cref="PostgresStore"/> fill in.
/// </summary>
public abstract class Store : IDisposable
{
    /// <summary>Seconds that a statement waits for somebody else to let go of what it needs.</summary>
    internal const int PatienceSeconds = 5;

    /// <summary>Times that a piece of work which met another in the store is run again.</summary>
    internal const int MostConflicts = 8;

    /// <summary>Milliseconds before the first such time, about; each further time twice as long.</summary>
    private const int FirstPause = 2;

    private const string Mark = "INSERT INTO marks (name) VALUES ('writable') ON CONFLICT (name) DO UPDATE SET name = excluded.name";

    static Store() => HoldableText.Register();

    /// <summary>An open connection, whose commits are flushed before they return. The caller closes it.</summary>
    /// <exception cref="StoreUnavailableException">None can be had now.</exception>
    public DbConnection Connect()
    {
        try
        {
            return Open();
        }
        catch (Exception e) when (IsTrouble(e))
        {
            CloseIdle();
            throw new StoreUnavailableException($"The store cannot be opened: {e.Message}", e);
        }
    }

    /// <summary>Runs a piece of work on the store; anew on another connection where it met a piece of work of somebody else and was undone.</summary>
    /// <param name="work">One statement, or one transaction, or steps of which each can be run again. What it does outside the store must bear being done twice.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be used now.</exception>
    public async Task<T> Use<T>(Func<DbConnection, Task<T>> work)
    {
        for (var conflicts = 0; ; conflicts++)
        {
            try
            {
                await using var connection = await OpenAsync().ConfigureAwait(false);
                return await work(connection).ConfigureAwait(false);
            }
            catch (Exception e) when (MayRunAgain(e, conflicts))
            {
                await Task.Delay(Pause(conflicts)).ConfigureAwait(false);
            }
            catch (Exception e) when (IsTrouble(e))
            {
                CloseIdle();
                throw new StoreUnavailableException($"The store cannot be used: {e.Message}", e);
            }
        }
    }

    /// <summary>Runs a short piece of work on the store at once, where nothing can be awaited.</summary>
    /// <inheritdoc cref="Use{T}"/>
    public T UseNow<T>(Func<DbConnection, T> work)
    {
        for (var conflicts = 0; ; conflicts++)
        {
            try
            {
                using var connection = Open();
                return work(connection);
            }
            catch (Exception e) when (MayRunAgain(e, conflicts))
            {
                Thread.Sleep(Pause(conflicts));
            }
            catch (Exception e) when (IsTrouble(e))
            {
                CloseIdle();
                throw new StoreUnavailableException($"The store cannot be used: {e.Message}", e);
            }
        }
    }

    /// <summary>Writes one mark, so that a store that cannot be written shows.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be written now.</exception>
    public void TryWrite() => UseNow(c => c.Execute(Mark));

    /// <summary>Closes idle connections: after trouble the next one is opened anew.</summary>
    public abstract void CloseIdle();

    /// <summary>Closes what is idle. What is in use is closed by who uses it.</summary>
    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    /// <summary>What an exception of the engine says about the store.</summary>
    internal abstract StoreFault FaultOf(Exception exception);

    /// <summary>
    /// Ends of the chains of organisations, which nobody else moves before the transaction ends. Those of an engine that locks rows are locked in one order, so
    /// that no two writers wait for each other.
    /// </summary>
    internal abstract Dictionary<string, ChainHead> LockHeads(DbConnection connection, DbTransaction transaction, IReadOnlyCollection<string> organisations);

    /// <summary>A transaction that reads what is committed, and waits for no writer of this process.</summary>
    internal abstract DbTransaction BeginLookUp(DbConnection connection);

    /// <summary>Runs one statement for each row, in order.</summary>
    internal abstract void ExecuteEach<T>(DbConnection connection, DbTransaction transaction, string sql, IReadOnlyCollection<T> rows);

    /// <summary>After an erasure was committed: leaves as little of it behind on the disk as the engine allows.</summary>
    internal abstract Task ForgetErased(DbConnection connection);

    /// <summary>A transaction whose reads all show one moment of the store, however long they take.</summary>
    internal abstract DbTransaction BeginSnapshot(DbConnection connection);

    /// <summary>Copies one moment of the store into a new SQLite file in a folder.</summary>
    internal abstract void CopyTo(string folder);

    /// <summary>All tables but the list of migrations, each after those that it refers to.</summary>
    internal abstract IReadOnlyList<StoredTable> Tables(DbConnection connection);

    /// <summary>Fills an empty table.</summary>
    internal abstract void InsertAll(DbConnection connection, DbTransaction transaction, StoredTable table, IEnumerable<object[]> rows);

    /// <summary>After tables were filled: rows that the engine numbers go on after the last.</summary>
    internal abstract void ContinueNumbers(DbConnection connection, DbTransaction transaction);

    /// <summary>A new open connection.</summary>
    protected abstract DbConnection Open();

    /// <summary>A new open connection.</summary>
    protected abstract ValueTask<DbConnection> OpenAsync();

    /// <summary>Closes what is idle.</summary>
    protected abstract void Dispose(bool disposing);

    /// <summary>How long to wait before what met somebody else for the so-many-th time is run again. By chance, so that those who met do not meet again.</summary>
    internal static TimeSpan Pause(int conflicts) => TimeSpan.FromMilliseconds(Random.Shared.NextDouble() * (FirstPause << conflicts));

    private bool MayRunAgain(Exception e, int conflicts) => conflicts < MostConflicts && FaultOf(e) == StoreFault.Conflict;

    /// <summary>Whether an exception comes from the engine or from the way to it.</summary>
    private static bool IsTrouble(Exception e) => e is DbException or TimeoutException or IOException;
}

/// <summary>What an engine's exception says about the store.</summary>
internal enum StoreFault
{
    /// <summary>It cannot be used now.</summary>
    Unavailable,

    /// <summary>What was to be stored breaks a rule of the store.</summary>
    BrokenRule,

    /// <summary>Two transactions stood in each other's way; this one was undone and may be run again.</summary>
    Conflict,

    /// <summary>What is stored is damaged.</summary>
    Damaged,
}
