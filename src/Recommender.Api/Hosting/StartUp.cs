using Recommender.Answers;
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
        var inForce = services.GetRequiredService<EditionInForce>();
        _ = services.GetRequiredService<IDecisionLog>();
        await services.GetRequiredService<DemoSquad>().Load(Path.Combine(settings.DataFolder, "demo", "squad.json"), Organisation.Local).ConfigureAwait(false);
        var versions = services.GetRequiredService<VersionStore>();
        await services.GetRequiredService<KnowledgeAtStart>().Keep(versions, services.GetRequiredService<TimeProvider>().GetUtcNow()).ConfigureAwait(false);
        if (await versions.InForce(Organisation.Local).ConfigureAwait(false) is var (catalogue, rules))
        {
            // Answers on other numbers than those that were put in force would be worse than none.
            inForce.Replace(await services.GetRequiredService<Editions>().Of(Organisation.Local, catalogue, rules).ConfigureAwait(false)
                ?? throw new InvalidSettingException($"Catalogue {catalogue} and rules {rules} were put in force, and this program cannot read them. Start the program that published them, put a version of the data folder in force, and start this one again."));
        }

        await services.GetRequiredService<Packings>().Use(RepeatedText.Of(inForce.Current)).ConfigureAwait(false);

        // Reading the knowledge leaves far more behind than it keeps; given back now, it does not count as the service's memory for good.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
    }
}
