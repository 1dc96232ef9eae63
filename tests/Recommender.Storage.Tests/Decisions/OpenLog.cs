using Recommender.Storage.Decisions;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>A log on a store of its own, with an outside connection to the same store.</summary>
public sealed class OpenLog : IAsyncDisposable
{
    private OpenLog(Engine engine)
    {
        Place = engine.NewPlace();
        Store = Place.Open();
        Log = new DecisionLog(Store, new Packings(Store));
        Outside = Place.Outside();
    }

    public StorePlace Place { get; }

    public Store Store { get; }

    public DecisionLog Log { get; }

    public OutsideConnection Outside { get; }

    public static OpenLog OnNewStore(Engine engine) => new(engine);

    public async ValueTask DisposeAsync()
    {
        await Log.DisposeAsync();
        Outside.Dispose();
        Store.Dispose();
        Place.Dispose();
    }
}

/// <summary>Tests on an open log.</summary>
public abstract class OpenLogTests(Engine engine) : IAsyncLifetime
{
    private readonly OpenLog open = OpenLog.OnNewStore(engine);

    protected Engine Engine => engine;

    protected StorePlace Place => open.Place;

    protected Store Store => open.Store;

    protected DecisionLog Log => open.Log;

    protected OutsideConnection Outside => open.Outside;

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync() => open.DisposeAsync().AsTask();

    /// <summary>Ids by organisation, in the order of a chain that was verified.</summary>
    protected Dictionary<string, List<string>> Chains() => Chain.Walk(Outside);
}
