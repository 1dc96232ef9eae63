using Dapper;
using Npgsql;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Engines;

/// <summary>How connections to PostgreSQL are made.</summary>
internal static class PostgresSettings
{
    /// <summary>Connections of one replica at most, where the connection string says nothing: servers have about a hundred for all.</summary>
    private const int MostConnections = 20;

    /// <summary>Statements that are kept ready on a connection.</summary>
    private const int ReadyStatements = 32;

    /// <summary>
    /// What a session asks of the server: to let go soon of what a client that is gone has locked, and to wait no longer for a lock than patience allows.
    /// </summary>
    private static readonly string[] Options =
    [
        $"lock_timeout={Store.PatienceSeconds}s", $"idle_in_transaction_session_timeout={Store.PatienceSeconds * 2}s",
        "tcp_keepalives_idle=5", "tcp_keepalives_interval=2", "tcp_keepalives_count=3",
    ];

    /// <summary>A connection string, read.</summary>
    /// <exception cref="ArgumentException">It is none. The message holds nothing of it.</exception>
    public static NpgsqlConnectionStringBuilder Of(string connectionString)
    {
        NpgsqlConnectionStringBuilder? settings = null;
        try
        {
            settings = new NpgsqlConnectionStringBuilder(connectionString);
        }
        catch (Exception e) when (e is ArgumentException or FormatException or InvalidOperationException or NotSupportedException or OverflowException)
        {
            // Told below without what was thrown: a part of the password may stand in it.
        }

        return string.IsNullOrEmpty(settings?.Host)
            ? throw new ArgumentException("it cannot be read; give for example Host=db.example;Database=recommender;Username=recommender;Password=…")
            : settings;
    }

    /// <summary>Where the store is, without who asks.</summary>
    public static string Place(NpgsqlConnectionStringBuilder settings) => $"{settings.Host}:{settings.Port}/{settings.Database}";

    /// <summary>The connection string whose sessions flush what they commit, once the server has shown that it keeps it.</summary>
    /// <exception cref="StoreUnavailableException">The server would lose what it committed, or cannot hold every text.</exception>
    public static string Durable(NpgsqlConnectionStringBuilder settings)
    {
        using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(settings.ConnectionString) { Pooling = false }.ConnectionString);
        connection.Open();
        var server = connection.QuerySingle<Server>("SELECT current_setting('synchronous_commit') AS Commits, COALESCE(current_setting('fsync', true), 'on') AS Flushes, current_setting('server_encoding') AS Encoding");
        if (server.Flushes != "on")
        {
            throw new StoreUnavailableException($"The server at {Place(settings)} runs with fsync={server.Flushes}: it would lose answered decisions. Set fsync=on.");
        }

        if (server.Encoding != "UTF8")
        {
            throw new StoreUnavailableException($"The database at {Place(settings)} is encoded as {server.Encoding}; make one with ENCODING 'UTF8'.");
        }

        // A server that waits for its standbys to apply as well asks for more than "on", and is left to it.
        var commits = server.Commits == "remote_apply" ? server.Commits : "on";
        var unset = new NpgsqlConnectionStringBuilder();
        return new NpgsqlConnectionStringBuilder(settings.ConnectionString)
        {
            ApplicationName = settings.ApplicationName ?? "track-accessory-recommender",
            Timeout = settings.Timeout == unset.Timeout ? Store.PatienceSeconds : settings.Timeout,
            MaxPoolSize = settings.MaxPoolSize == unset.MaxPoolSize ? MostConnections : settings.MaxPoolSize,
            MaxAutoPrepare = settings.MaxAutoPrepare == unset.MaxAutoPrepare ? ReadyStatements : settings.MaxAutoPrepare,
            Options = string.Join(' ', [.. new[] { settings.Options }.OfType<string>(), .. Options.Append($"synchronous_commit={commits}").Select(o => $"-c {o}")]),
        }.ConnectionString;
    }

    private sealed class Server
    {
        public string Commits { get; init; } = "";

        public string Flushes { get; init; } = "";

        public string Encoding { get; init; } = "";
    }
}
