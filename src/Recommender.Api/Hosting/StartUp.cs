using Recommender.Answers;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>What must be right before the first request: knowledge, store, demo squad.</summary>
public static class StartUp
{
    /// <summary>Reads the knowledge, opens the store, loads the demo squad once, and answers one request without keeping it, so that the first caller need not wait for the compiler.</summary>
    /// <exception cref="Domain.Knowledge.InvalidKnowledgeException">The knowledge cannot be used.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be opened.</exception>
    public static async Task Prepare(IServiceProvider services)
    {
        var settings = services.GetRequiredService<Settings>();
        var edition = services.GetRequiredService<EditionInForce>().Current;
        _ = services.GetRequiredService<IDecisionLog>();
        await services.GetRequiredService<DemoSquad>().Load(Path.Combine(settings.DataFolder, "demo", "squad.json"), Organisation.Local).ConfigureAwait(false);
        var request = new RecommendationRequest { Athlete = new AthleteFacts { EventGroup = edition.Catalogue.Vocabulary.EventGroups[0].Id }, Phase = edition.Catalogue.Vocabulary.Phases[0].Id };
        _ = Domain.RecommendationPipeline.Answer(request, edition, "");

        // Reading the knowledge leaves far more behind than it keeps; given back now, it does not count as the service's memory for good.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
    }
}
