using System.Threading.RateLimiting;
using Recommender.Api.Operations;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Overload;

/// <summary>
/// Lets requests to their work while there is room, each kind of work on its own places, and turns the others away at once. A request with a body enters when the body
/// has arrived (<see cref="IWorkGate"/>), so that slow senders hold no place; slow readers are given up (<see cref="ReaderPace"/>), and who waits for a place is turned away after a while.
/// </summary>
public sealed class Admission : IAsyncDisposable
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);
    private readonly Dictionary<WorkKind, ConcurrencyLimiter> limiters;
    private readonly TimeSpan tooLong;
    private readonly TimeSpan longestWait;
    private readonly TimeProvider clock;
    private readonly ServiceMetrics metrics;
    private readonly Lock streak = new();
    private long firstShed;
    private long lastShed;

    /// <param name="limits">Limits.</param>
    /// <param name="clock">Tells how long it has been turning away.</param>
    /// <param name="metrics">Counts what is turned away.</param>
    public Admission(WorkLimits limits, TimeProvider clock, ServiceMetrics metrics)
    {
        this.clock = clock;
        tooLong = TimeSpan.FromSeconds(limits.UnreadySeconds);
        longestWait = TimeSpan.FromSeconds(limits.WaitSeconds);
        limiters = new Dictionary<WorkKind, ConcurrencyLimiter>
        {
            [WorkKind.Single] = Limiter(limits.Single, limits.SingleWaiting),
            [WorkKind.Several] = Limiter(limits.Several, limits.SeveralWaiting),
            [WorkKind.Walk] = Limiter(limits.Walks, limits.WalksWaiting),
        };
        this.metrics = metrics;
        metrics.ObserveWork(limiters);
    }

    /// <summary>What is answered to a request that is turned away.</summary>
    public static Problem Refusal => Problem.Of(ProblemTypes.Overloaded, "More is asked than can be answered soon; nothing was done for this request. Send it again after Retry-After seconds.");

    /// <summary>Whether single questions have been turned away for some while without a pause.</summary>
    public bool OverloadedForLong
    {
        get
        {
            lock (streak)
            {
                return lastShed != 0 && clock.GetElapsedTime(lastShed) < Pause && clock.GetElapsedTime(firstShed, lastShed) > tooLong;
            }
        }
    }

    /// <summary>Puts the admission before the endpoints.</summary>
    public static void Use(WebApplication app)
    {
        var admission = app.Services.GetRequiredService<Admission>();
        app.Use(async (context, next) =>
        {
            var kind = WorkKinds.Of(context.GetEndpoint());
            if (kind == WorkKind.Free)
            {
                await next(context);
                return;
            }

            using var gate = new Gate(admission, kind, context);
            if (HttpMethods.IsPost(context.Request.Method) || HttpMethods.IsPut(context.Request.Method))
            {
                context.Features.Set<IWorkGate>(gate);
                await next(context);
            }
            else if (await gate.Enter())
            {
                await next(context);
            }
            else
            {
                await ProblemMapping.Write(context, Refusal);
            }
        });
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (var limiter in limiters.Values)
        {
            await limiter.DisposeAsync();
        }
    }

    private static ConcurrencyLimiter Limiter(int atOnce, int waiting) =>
        new(new ConcurrencyLimiterOptions { PermitLimit = atOnce, QueueLimit = waiting, QueueProcessingOrder = QueueProcessingOrder.OldestFirst });

    private void Shed(WorkKind kind)
    {
        metrics.Shed(kind);
        if (kind != WorkKind.Single)
        {
            return;
        }

        var now = clock.GetTimestamp();
        lock (streak)
        {
            firstShed = lastShed == 0 || clock.GetElapsedTime(lastShed, now) > Pause ? now : firstShed;
            lastShed = now;
        }
    }

    private sealed class Gate(Admission admission, WorkKind kind, HttpContext context) : IWorkGate, IDisposable
    {
        private RateLimitLease? lease;

        public async ValueTask<bool> Enter()
        {
            if (lease is not null)
            {
                return true;
            }

            var limiter = admission.limiters[kind];
            if ((limiter.AttemptAcquire() is { IsAcquired: true } atOnce ? atOnce : await Wait(limiter)) is not { IsAcquired: true } acquired)
            {
                admission.Shed(kind);
                return false;
            }

            lease = acquired;
            return true;
        }

        /// <summary>A place, or none where too many wait or none came free in time: long work may hold the places for minutes, and who waits is to know.</summary>
        private async ValueTask<RateLimitLease?> Wait(ConcurrencyLimiter limiter)
        {
            using var patience = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
            patience.CancelAfter(admission.longestWait);
            try
            {
                return await limiter.AcquireAsync(1, patience.Token);
            }
            catch (OperationCanceledException) when (!context.RequestAborted.IsCancellationRequested)
            {
                return null;
            }
        }

        // The lease is kept so that who has left is not asked to wait again; a second giving back does nothing.
        public void Leave() => lease?.Dispose();

        public void Dispose() => Leave();
    }
}
