using Recommender.Storage.Decisions;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>A log on a store of its own, with an outside connection to the same file.</summary>
public sealed class OpenLog : IAsyncDisposable
{
    private OpenLog()
    {
        Folder = new StoreFolder();
        Store = SqliteStore.Open(Folder.Path);
        Log = new DecisionLog(Store, new Packings(Store));
        Outside = new OutsideConnection(Folder.File);
    }

    public StoreFolder Folder { get; }

    public SqliteStore Store { get; }

    public DecisionLog Log { get; }

    public OutsideConnection Outside { get; }

    public static OpenLog OnNewStore() => new();

    public async ValueTask DisposeAsync()
    {
        await Log.DisposeAsync();
        Outside.Dispose();
        Store.Dispose();
        Folder.Dispose();
    }
}

/// <summary>Tests on an open log.</summary>
public abstract class OpenLogTests : IAsyncLifetime
{
    private readonly OpenLog open = OpenLog.OnNewStore();

    protected StoreFolder Folder => open.Folder;

    protected SqliteStore Store => open.Store;

    protected DecisionLog Log => open.Log;

    protected OutsideConnection Outside => open.Outside;

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync() => open.DisposeAsync().AsTask();

    /// <summary>Ids by organisation, in the order of a chain that was verified.</summary>
    protected Dictionary<string, List<string>> Chains() => Chain.Walk(Folder.File);
}
