namespace Recommender.Api.Overload;

/// <summary>
/// Stops without losing a request: first this replica says that it is not ready and asks every connection to close, while it still answers; then it stops listening and
/// finishes what it works on; then the store writes what waits.
/// </summary>
/// <param name="limits">How long each step takes.</param>
public sealed class Drain(WorkLimits limits) : IHostedLifecycleService
{
    private volatile bool draining;

    /// <summary>Whether the service was asked to stop.</summary>
    public bool Draining => draining;

    /// <summary>Tells connections to close while draining.</summary>
    public static void Use(WebApplication app)
    {
        var drain = app.Services.GetRequiredService<Drain>();
        app.Use((context, next) =>
        {
            if (drain.Draining && HttpProtocol.IsHttp11(context.Request.Protocol))
            {
                context.Response.Headers.Connection = "close";
            }

            return next(context);
        });
    }

    /// <inheritdoc/>
    public async Task StoppingAsync(CancellationToken cancellationToken)
    {
        draining = true;
        await Task.Delay(TimeSpan.FromSeconds(limits.DrainSeconds), cancellationToken);
    }

    /// <inheritdoc/>
    public Task StartingAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StartedAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task StoppedAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
