using System.Diagnostics.Metrics;
using System.Threading.RateLimiting;
using Recommender.Api.Overload;

namespace Recommender.Api.Operations;

/// <summary>What the service tells of its work: how much goes on, waits and is turned away.</summary>
public sealed class ServiceMetrics
{
    /// <summary>Name of the meter.</summary>
    public const string Name = "Recommender.Service";

    private readonly Meter meter;
    private readonly Counter<long> shed;

    /// <param name="meters">Makes meters.</param>
    public ServiceMetrics(IMeterFactory meters)
    {
        meter = meters.Create(Name);
        shed = meter.CreateCounter<long>("recommender.work.shed", "{request}", "Requests that were turned away, by kind of work.");
    }

    /// <summary>A request was turned away.</summary>
    internal void Shed(WorkKind kind) => shed.Add(1, Tag(kind));

    /// <summary>Tells from now on what each limiter holds.</summary>
    internal void ObserveWork(IReadOnlyDictionary<WorkKind, ConcurrencyLimiter> limiters)
    {
        meter.CreateObservableGauge("recommender.work.waiting", () => Each(s => s.CurrentQueuedCount), "{request}", "Requests that wait for a place, by kind of work.");
        meter.CreateObservableGauge("recommender.work.places", () => Each(s => s.CurrentAvailablePermits), "{request}", "Places that are free, by kind of work.");

        IEnumerable<Measurement<long>> Each(Func<RateLimiterStatistics, long> of) => limiters.Select(l => new Measurement<long>(of(l.Value.GetStatistics()!), Tag(l.Key)));
    }

    private static KeyValuePair<string, object?> Tag(WorkKind kind) => new("work", kind switch { WorkKind.Single => "single", WorkKind.Several => "several", _ => "walk" });
}
