using Recommender.Answers;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>Asks the store again and again whether another replica has put something in force, so that all answer on it soon.</summary>
/// <param name="inForce">What is in force here.</param>
/// <param name="settings">Says how often.</param>
/// <param name="clock">Waits.</param>
/// <param name="logger">Told when it cannot.</param>
public sealed partial class PublicationWatch(EditionInForce inForce, Settings settings, TimeProvider clock, ILogger<PublicationWatch> logger) : BackgroundService
{
    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(settings.Watch, clock);
        var couldNot = false;
        while (await Next(timer, stoppingToken).ConfigureAwait(false))
        {
            try
            {
                await inForce.CatchUp().ConfigureAwait(false);
                couldNot = false;
            }
            catch (StoreUnavailableException e)
            {
                // Told once an outage, not every two seconds.
                if (!couldNot)
                {
                    CouldNot(logger, e);
                }

                couldNot = true;
            }
        }
    }

    private static async Task<bool> Next(PeriodicTimer timer, CancellationToken stopping)
    {
        try
        {
            return await timer.WaitForNextTickAsync(stopping).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            return false;
        }
    }

    [LoggerMessage(Level = LogLevel.Warning, Message = "What other replicas have put in force cannot be read now; answers stay on what was in force before")]
    private static partial void CouldNot(ILogger logger, Exception exception);
}
