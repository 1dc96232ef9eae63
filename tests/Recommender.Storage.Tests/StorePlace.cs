namespace Recommender.Storage.Tests;

/// <summary>One of the engines that a store can be on.</summary>
public abstract class Engine
{
    /// <summary>One SQLite file.</summary>
    public static Engine Sqlite { get; } = new SqliteEngine();

    /// <summary>A PostgreSQL database of its own on a real server.</summary>
    public static Engine Postgres { get; } = new PostgresEngine();

    /// <summary>A place for one store, gone when it is disposed.</summary>
    public abstract StorePlace NewPlace();

    private sealed class SqliteEngine : Engine
    {
        public override StorePlace NewPlace() => new StoreFolder();
    }

    private sealed class PostgresEngine : Engine
    {
        public override StorePlace NewPlace() => new StoreDatabase();
    }
}

/// <summary>Where one store lies.</summary>
public abstract class StorePlace : IDisposable
{
    /// <summary>The store, as one program has it; every call gives another program's.</summary>
    public abstract Store Open();

    /// <summary>A connection to it without any code of the store.</summary>
    public abstract OutsideConnection Outside();

    /// <summary>Has the engine put away what it counts commits by.</summary>
    public virtual void Flush(OutsideConnection outside)
    {
    }

    /// <summary>Commits that wrote decisions, as the engine itself counts them.</summary>
    public abstract int Commits(OutsideConnection outside);

    /// <summary>What another process is told so that it opens the same store.</summary>
    public abstract IReadOnlyList<string> Arguments { get; }

    public abstract void Dispose();
}
