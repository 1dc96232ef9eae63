using System.Diagnostics;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Testing.Postgres;
using static Recommender.Storage.Tests.Decisions.RecordBuilder;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>What may befall a server while it is used: what was answered is there, what could not be stored is told, and nothing is restarted here.</summary>
public sealed class TroubledServerTests : IAsyncLifetime, IDisposable
{
    private readonly PostgresServer server;
    private readonly string connectionString;
    private readonly PostgresStore store;
    private readonly DecisionLog log;

    public TroubledServerTests()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        server = new PostgresServer();
        connectionString = server.NewDatabase();
        store = PostgresStore.Open(connectionString);
        log = new DecisionLog(store, new Packings(store));
    }

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await log.DisposeAsync();

    public void Dispose()
    {
        store.Dispose();
        server.Dispose();
    }

    /// <summary>Killed and started again three times while eight callers append all the time.</summary>
    [SkippableFact]
    public async Task A_server_that_is_killed_and_comes_back_loses_nothing_that_was_answered()
    {
        using var over = new CancellationTokenSource();
        var (answered, uncertain) = (new List<string>(), new List<string>());
        var callers = Enumerable.Range(0, 8).Select(caller => Task.Run(async () =>
        {
            for (var i = 0; !over.IsCancellationRequested; i++)
            {
                var id = $"{caller}/{i}";
                try
                {
                    await log.Append([Record(id)], null);
                    lock (answered)
                    {
                        answered.Add(id);
                    }
                }
                catch (StoreUnavailableException e)
                {
                    lock (uncertain)
                    {
                        uncertain.AddRange(e.MayBeStored ? [id] : []);
                    }

                    await Task.Delay(50);
                }
            }
        })).ToArray();
        for (var round = 0; round < 3; round++)
        {
            var before = answered.Count;
            await Until(() => answered.Count > before + 100);
            server.Kill();
            await Task.Delay(300);
            await Assert.ThrowsAsync<StoreUnavailableException>(() => log.Read("club", "0/0"));
            server.Start();
            await Until(() => answered.Count > before + 200);
        }

        await over.CancelAsync();
        await Task.WhenAll(callers);

        using var outside = OutsideConnection.ToPostgres(connectionString);
        var stored = Chain.Walk(outside)["club"];
        Assert.Empty(answered.Except(stored));
        Assert.Empty(stored.Except(answered).Except(uncertain));
    }

    [SkippableFact]
    public async Task Connections_that_the_server_closed_cost_a_read_at_most_and_no_append()
    {
        await log.Append([Record("first")], null);
        await Task.WhenAll(Enumerable.Range(0, 10).Select(_ => log.Read("club", "first")));
        for (var round = 0; round < 5; round++)
        {
            server.Execute("SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity WHERE datname LIKE 'd%' AND pid <> pg_backend_pid()");
            await Tolerated(() => log.Read("club", "first"));
            Assert.NotNull(await log.Read("club", "first"));
            Assert.True(await log.Append([Record($"d-{round}")], null));
        }

        using var outside = OutsideConnection.ToPostgres(connectionString);
        Assert.Equal(["first", "d-0", "d-1", "d-2", "d-3", "d-4"], Chain.Walk(outside)["club"]);
    }

    [SkippableFact]
    public async Task A_server_that_may_only_be_read_is_told_and_written_again_once_it_may()
    {
        await log.Append([Record("first")], null);
        server.Execute("ALTER SYSTEM SET default_transaction_read_only = on");
        server.Execute("SELECT pg_reload_conf()");
        await Until(() => !IsWritable());

        await Assert.ThrowsAsync<StoreUnavailableException>(async () => await log.Append([Record("second")], null));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => new AthleteStore(store).SaveOnce("mark", "club", [], Noon));
        Assert.NotNull(await log.Read("club", "first"));

        server.Execute("ALTER SYSTEM RESET default_transaction_read_only");
        server.Execute("SELECT pg_reload_conf()");
        await Until(IsWritable);

        Assert.True(await log.Append([Record("third")], null));
        using var outside = OutsideConnection.ToPostgres(connectionString);
        Assert.Equal(["first", "third"], Chain.Walk(outside)["club"]);
    }

    private bool IsWritable()
    {
        try
        {
            store.TryWrite();
            return true;
        }
        catch (StoreUnavailableException)
        {
            return false;
        }
    }

    private static async Task Tolerated(Func<Task> call)
    {
        try
        {
            await call();
        }
        catch (StoreUnavailableException)
        {
            // The first to meet a closed connection may.
        }
    }

    private static async Task Until(Func<bool> holds)
    {
        var waiting = Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(waiting.Elapsed < TimeSpan.FromSeconds(60), "it did not come about within a minute.");
            await Task.Delay(20);
        }
    }
}

/// <summary>A server whose disk is full.</summary>
public sealed class FullServerTests
{
    [SmallDiskFact]
    public async Task A_servers_full_disk_is_told_and_it_is_written_again_once_there_is_room()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        using var disk = new SmallDisk("250m");
        Process.Start("chmod", ["755", disk.Path])!.WaitForExit();
        using var server = new PostgresServer(["max_wal_size=32MB", "min_wal_size=32MB"], disk.Path);
        var connectionString = server.NewDatabase();
        using var store = PostgresStore.Open(connectionString);
        await using var log = new DecisionLog(store, new Packings(store));
        var ballast = Path.Combine(disk.Path, "ballast");
        await log.Append([Record("first")], null);
        Fill(ballast);
        var (answered, refused) = (new List<string> { "first" }, 0);
        for (var i = 0; refused < 3; i++)
        {
            Assert.True(i < 3000, "the disk never filled.");
            try
            {
                await log.Append([Big($"{i}")], null);
                answered.Add($"{i}");
            }
            catch (StoreUnavailableException)
            {
                refused++;
            }
        }

        File.Delete(ballast);
        try
        {
            store.TryWrite();
        }
        catch (StoreUnavailableException)
        {
            // Without room for its own log a server stops; who runs it starts it again. Here nothing is restarted.
            server.Restart();
        }

        Assert.True(await log.Append([Big("after")], null));
        using var outside = OutsideConnection.ToPostgres(connectionString);
        Assert.Equal([.. answered, "after"], Chain.Walk(outside)["club"]);
    }

    private static void Fill(string file)
    {
        using var stream = File.Create(file);
        var bytes = new byte[1 << 16];
        try
        {
            while (true)
            {
                stream.Write(bytes);
                stream.Flush();
            }
        }
        catch (IOException)
        {
            // Full.
        }
    }

    private static Domain.Decisions.DecisionRecord Big(string id)
    {
        var bytes = new byte[64 * 1024];
        new Random(id.Length).NextBytes(bytes);
        return Record(id) with { Answer = bytes };
    }
}
