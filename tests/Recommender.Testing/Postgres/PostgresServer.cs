using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Npgsql;

namespace Recommender.Testing.Postgres;

/// <summary>
/// A real PostgreSQL server of its own: a new cluster in a folder, a free port of the loopback address, its own password. It ends with this process, however that ends.
/// </summary>
public sealed class PostgresServer : IDisposable
{
    private const string User = "app";

    /// <summary>Starts the server and ends it when the process that asked for it is gone, even when that was killed.</summary>
    private const string Watched = """
        parent=$1; shift
        "$@" & server=$!
        while [ -d "/proc/$parent" ] && [ -d "/proc/$server" ]; do sleep 1; done
        kill -QUIT "$server" 2>/dev/null
        wait "$server"
        """;

    private static readonly Lazy<PostgresServer> OfThisProcess = new(() => new PostgresServer());
    private static int databases;

    private readonly string folder;
    private readonly string password = Convert.ToHexString(RandomNumberGenerator.GetBytes(12));
    private readonly string[] settings;
    private Process? process;

    /// <summary>Makes a cluster and starts its server.</summary>
    /// <param name="settings">Settings of the server beside the usual ones, each name=value.</param>
    /// <param name="below">Folder to make it in; the temporary one when null.</param>
    public PostgresServer(IEnumerable<string>? settings = null, string? below = null)
    {
        this.settings = [.. settings ?? []];
        folder = Path.Combine(below ?? Path.GetTempPath(), $"recommender-postgres-{Guid.NewGuid():N}");
        Directory.CreateDirectory(folder);
        Port = FreePort();
        var passwordFile = Path.Combine(folder, "password");
        File.WriteAllText(passwordFile, password);
        if (PostgresPrograms.IsRoot)
        {
            Run("chown", "-R", "postgres", folder);
        }

        RunAsServer(PostgresPrograms.Path("initdb"), "-D", Cluster, "-U", User, $"--pwfile={passwordFile}", "--auth=scram-sha-256", "--locale=C.UTF-8", "--encoding=UTF8", "--no-sync");
        Start();
    }

    /// <summary>The server that the tests of this process share; started when it is first asked for.</summary>
    public static PostgresServer Shared
    {
        get
        {
            if (!OfThisProcess.IsValueCreated)
            {
                AppDomain.CurrentDomain.ProcessExit += (_, _) => OfThisProcess.Value.Dispose();
            }

            return OfThisProcess.Value;
        }
    }

    /// <summary>Port on 127.0.0.1.</summary>
    public int Port { get; }

    private string Cluster => Path.Combine(folder, "cluster");

    /// <summary>How to connect to a database of the server.</summary>
    public string To(string database) =>
        new NpgsqlConnectionStringBuilder { Host = "127.0.0.1", Port = Port, Database = database, Username = User, Password = password }.ConnectionString;

    /// <summary>How to connect to a new database.</summary>
    /// <param name="template">Database that it is a copy of; an empty one when null.</param>
    public string NewDatabase(string? template = null)
    {
        var name = $"d{Interlocked.Increment(ref databases).ToString(CultureInfo.InvariantCulture)}";
        Execute($"CREATE DATABASE {name} TEMPLATE {template ?? "template0"}");
        return To(name);
    }

    /// <summary>Takes a database away, with whoever is connected to it.</summary>
    public void Drop(string connectionString) => Execute($"DROP DATABASE IF EXISTS {new NpgsqlConnectionStringBuilder(connectionString).Database} WITH (FORCE)");

    /// <summary>Runs a statement on the server itself.</summary>
    public void Execute(string sql)
    {
        using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(To("postgres")) { Pooling = false, Options = "-c default_transaction_read_only=off" }.ConnectionString);
        connection.Open();
        using var command = new NpgsqlCommand(sql, connection);
        command.ExecuteNonQuery();
    }

    /// <summary>Starts the server again after <see cref="Kill"/> or <see cref="Stop"/>, and waits until it answers.</summary>
    public void Start()
    {
        string[] program = [PostgresPrograms.Path("postgres"), "-D", Cluster, "-p", $"{Port}", "-c", "listen_addresses=127.0.0.1", "-c", $"unix_socket_directories={folder}",
            "-c", "shared_buffers=64MB", "-c", "logging_collector=off", .. settings.SelectMany(s => new[] { "-c", s })];
        var waiting = Stopwatch.StartNew();
        while (true)
        {
            process?.Dispose();
            process = Process.Start(AsServer("sh", ["-c", Watched, "sh", $"{Environment.ProcessId}", .. program]))!;
            process.ErrorDataReceived += (_, _) => { };
            process.BeginErrorReadLine();
            while (!process.HasExited && waiting.Elapsed < TimeSpan.FromSeconds(60))
            {
                if (Answers())
                {
                    return;
                }

                Thread.Sleep(50);
            }

            // After a kill the memory of the one before may not be free yet.
            if (waiting.Elapsed > TimeSpan.FromSeconds(60))
            {
                throw new InvalidOperationException($"The PostgreSQL server in {folder} does not start.");
            }

            Thread.Sleep(100);
        }
    }

    /// <summary>Starts the server again, whether it still runs or ended by itself.</summary>
    public void Restart()
    {
        if (process is { HasExited: false })
        {
            Stop();
        }

        Start();
    }

    /// <summary>Kills the server as a power cut of its process would: SIGKILL, no goodbye.</summary>
    public void Kill() => End("-KILL");

    /// <summary>Stops the server; who is connected is thrown out.</summary>
    public void Stop() => End("-INT");

    /// <summary>Stops the server and removes the cluster.</summary>
    public void Dispose()
    {
        if (process is { HasExited: false })
        {
            End("-QUIT");
        }

        process?.Dispose();
        process = null;
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private void End(string signal)
    {
        var postmaster = File.ReadLines(Path.Combine(Cluster, "postmaster.pid")).First();
        Run("kill", signal, postmaster);
        process!.WaitForExit();
    }

    private bool Answers()
    {
        try
        {
            Execute("SELECT 1");
            return true;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    /// <summary>The server must not run as root: where this process does, it runs as the package's user.</summary>
    private static ProcessStartInfo AsServer(string program, string[] arguments) => new(
        PostgresPrograms.IsRoot ? "setpriv" : program,
        PostgresPrograms.IsRoot ? ["--reuid=postgres", "--regid=postgres", "--clear-groups", program, .. arguments] : arguments)
    {
        RedirectStandardError = true,
        WorkingDirectory = "/",
    };

    private static void RunAsServer(string program, params string[] arguments) => Run(AsServer(program, arguments));

    private static void Run(string program, params string[] arguments) => Run(new ProcessStartInfo(program, arguments) { RedirectStandardError = true });

    private static void Run(ProcessStartInfo start)
    {
        start.RedirectStandardOutput = true;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{start.FileName} failed: {error.Result}");
        }
    }
}
