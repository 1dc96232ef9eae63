using Recommender.Testing.Postgres;

namespace Recommender.Storage.Tests.Kills;

/// <summary>A store whose programs are killed: the one that appends and, where there is one, the server.</summary>
public abstract class KilledPlace : IDisposable
{
    /// <summary>A SQLite file; its program is the only one there is to kill.</summary>
    public static KilledPlace Sqlite() => new File();

    /// <summary>A database on a server of its own.</summary>
    public static KilledPlace Postgres() => new Server();

    /// <summary>What another process is told so that it opens the store.</summary>
    public abstract IReadOnlyList<string> Arguments { get; }

    /// <summary>Opens the store.</summary>
    public abstract Store Open();

    /// <summary>A connection without any code of the store.</summary>
    public abstract OutsideConnection Outside();

    /// <summary>Kills the server, if there is one; it is started again by <see cref="Revive"/>.</summary>
    public abstract void KillServer();

    /// <summary>Starts the server again, if there is one.</summary>
    public abstract void Revive();

    public abstract void Dispose();

    private sealed class File : KilledPlace
    {
        private readonly StoreFolder folder = new();

        public override IReadOnlyList<string> Arguments => folder.Arguments;

        public override Store Open() => folder.Open();

        public override OutsideConnection Outside() => folder.Outside();

        public override void KillServer()
        {
        }

        public override void Revive()
        {
        }

        public override void Dispose() => folder.Dispose();
    }

    private sealed class Server : KilledPlace
    {
        private readonly PostgresServer server;
        private readonly string connectionString;

        public Server()
        {
            Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
            server = new PostgresServer();
            connectionString = server.NewDatabase();
        }

        public override IReadOnlyList<string> Arguments => ["postgres", connectionString];

        public override Store Open() => PostgresStore.Open(connectionString);

        public override OutsideConnection Outside() => OutsideConnection.ToPostgres(connectionString);

        public override void KillServer() => server.Kill();

        public override void Revive() => server.Start();

        public override void Dispose() => server.Dispose();
    }
}
