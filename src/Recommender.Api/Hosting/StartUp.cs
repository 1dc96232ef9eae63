using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Api.Access;
using Recommender.Domain.Knowledge;
using Recommender.Storage.Decisions;
using Recommender.Storage.Versioning;

namespace Recommender.Api.Hosting;

/// <summary>What must be right before the first request: keys where others can reach the service, knowledge, store, demo squad.</summary>
public static partial class StartUp
{
    /// <summary>Reads the knowledge, opens the store, loads the demo squad once, and makes the text that answers are packed with; that answers a few requests, so the first caller need not wait for the compiler.</summary>
    /// <exception cref="InvalidSettingException">Others can reach the service and there is no key.</exception>
    /// <exception cref="InvalidKnowledgeException">The knowledge cannot be used.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be opened.</exception>
    public static async Task Prepare(IServiceProvider services)
    {
        var settings = services.GetRequiredService<Settings>();
        if (services.GetRequiredService<AccessSettings>().Reachable is { } url && !await services.GetRequiredService<AccessKeys>().AnyUsable().ConfigureAwait(false))
        {
            throw new InvalidSettingException($"Other machines can reach {url}, and there is no key that holds. Make one first: {AccessSettings.FirstKey}. Or listen on loopback only, for example http://127.0.0.1:5080.");
        }

        var start = services.GetRequiredService<KnowledgeAtStart>();
        _ = services.GetRequiredService<IDecisionLog>();
        await services.GetRequiredService<DemoSquad>().Load(Path.Combine(settings.DataFolder, "demo", "squad.json"), Caller.LocalOrganisation).ConfigureAwait(false);
        var versions = services.GetRequiredService<VersionStore>();
        await start.Keep(versions, services.GetRequiredService<TimeProvider>().GetUtcNow()).ConfigureAwait(false);

        await services.GetRequiredService<Packings>().Use(RepeatedText.Of(await OfLocal(services, start.Edition).ConfigureAwait(false))).ConfigureAwait(false);

        // Reading the knowledge leaves far more behind than it keeps; given back now, it does not count as the service's memory for good.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
    }

    /// <summary>
    /// Reads now what the local organisation has put in force; other organisations' is read when they ask. One that cannot be read keeps nobody else from answers, and the service must run for another to be
    /// put in force in its place; until then the organisation gets none.
    /// </summary>
    private static async Task<Edition> OfLocal(IServiceProvider services, Edition ofDataFolder)
    {
        try
        {
            return await services.GetRequiredService<EditionInForce>().Of(Caller.LocalOrganisation).ConfigureAwait(false);
        }
        catch (StoreUnavailableException e)
        {
            Unread(services.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(StartUp)), e);
            return ofDataFolder;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "What the local organisation has put in force cannot be read; it gets no answers until another version is put in force")]
    private static partial void Unread(ILogger logger, Exception exception);
}
