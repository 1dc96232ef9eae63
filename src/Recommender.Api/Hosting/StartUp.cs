using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Storage.Decisions;
using Recommender.Storage.Versioning;

namespace Recommender.Api.Hosting;

/// <summary>What must be right before the first request: knowledge, store, demo squad.</summary>
public static class StartUp
{
    /// <summary>Reads the knowledge, opens the store, loads the demo squad once, and makes the text that answers are packed with; that answers a few requests, so the first caller need not wait for the compiler.</summary>
    /// <exception cref="Domain.Knowledge.InvalidKnowledgeException">The knowledge cannot be used.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be opened.</exception>
    public static async Task Prepare(IServiceProvider services)
    {
        var settings = services.GetRequiredService<Settings>();
        var start = services.GetRequiredService<KnowledgeAtStart>();
        _ = services.GetRequiredService<IDecisionLog>();
        await services.GetRequiredService<DemoSquad>().Load(Path.Combine(settings.DataFolder, "demo", "squad.json"), Caller.LocalOrganisation).ConfigureAwait(false);
        var versions = services.GetRequiredService<VersionStore>();
        await start.Keep(versions, services.GetRequiredService<TimeProvider>().GetUtcNow()).ConfigureAwait(false);

        // Read now what the local organisation has put in force, so that a program that cannot read it does not start. Other organisations' is read when they ask.
        var local = await services.GetRequiredService<EditionInForce>().Of(Caller.LocalOrganisation).ConfigureAwait(false);
        await services.GetRequiredService<Packings>().Use(RepeatedText.Of(local)).ConfigureAwait(false);

        // Reading the knowledge leaves far more behind than it keeps; given back now, it does not count as the service's memory for good.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
    }
}
