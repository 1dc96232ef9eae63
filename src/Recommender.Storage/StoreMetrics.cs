using System.Diagnostics;
using System.Diagnostics.Metrics;

namespace Recommender.Storage;

/// <summary>What the store tells of itself: numbers and times, never what is stored. Costs next to nothing while nobody listens.</summary>
public static class StoreMetrics
{
    /// <summary>Name of the meter and of the source of spans.</summary>
    public const string Name = "Recommender.Storage";

    private static readonly ActivitySource Source = new(Name);
    private static readonly Meter Meter = new(Name);
    private static readonly Histogram<int> CommitSize = Meter.CreateHistogram<int>("recommender.commit.records", "{record}", "Records that share a commit.", advice: new InstrumentAdvice<int> { HistogramBucketBoundaries = [1, 2, 4, 8, 16, 32, 64, 128, 256, 512] });
    private static readonly Histogram<double> CommitTime = Meter.CreateHistogram<double>("recommender.commit.duration", "s", "Time of a commit, with the flush to disk.", advice: Times);
    private static readonly Histogram<double> AppendTime = Meter.CreateHistogram<double>("recommender.append.duration", "s", "Time from the wish to store a decision to its commit.", advice: Times);
    private static readonly UpDownCounter<int> Waiting = Meter.CreateUpDownCounter<int>("recommender.append.waiting", "{append}", "Appends that wait for their commit.");
    private static readonly Counter<int> Errors = Meter.CreateCounter<int>("recommender.store.errors", "{error}", "Commits that failed.");

    private static InstrumentAdvice<double> Times => new() { HistogramBucketBoundaries = [0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.25, 1, 5] };

    /// <summary>An append begins; it ends when the value is disposed.</summary>
    internal static Step Append()
    {
        Waiting.Add(1);
        return new Step(Source.StartActivity("store decision"), Stopwatch.GetTimestamp());
    }

    /// <summary>A commit was made.</summary>
    internal static void Committed(int records, long begun)
    {
        CommitSize.Record(records);
        CommitTime.Record(Stopwatch.GetElapsedTime(begun).TotalSeconds);
    }

    /// <summary>A commit failed.</summary>
    internal static void Failed() => Errors.Add(1);

    /// <summary>An append that goes on.</summary>
    internal readonly struct Step(Activity? span, long begun) : IDisposable
    {
        public void Dispose()
        {
            Waiting.Add(-1);
            AppendTime.Record(Stopwatch.GetElapsedTime(begun).TotalSeconds);
            span?.Dispose();
        }
    }
}
