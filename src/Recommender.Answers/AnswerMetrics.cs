using System.Diagnostics;
using System.Diagnostics.Metrics;
using Recommender.Domain.Decisions;

namespace Recommender.Answers;

/// <summary>What answering tells of itself: numbers and times by kind of decision, nothing of who is asked about. Costs next to nothing while nobody listens.</summary>
public static class AnswerMetrics
{
    /// <summary>Name of the meter and of the source of spans.</summary>
    public const string Name = "Recommender.Answers";

    private static readonly ActivitySource Source = new(Name);
    private static readonly Meter Meter = new(Name);
    private static readonly Histogram<double> Time = Meter.CreateHistogram<double>("recommender.answer.duration", "s", "Time to compute an answer, without reading, storing and sending it.",
        advice: new InstrumentAdvice<double> { HistogramBucketBoundaries = [0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.5] });

    private static readonly Histogram<int> Eligible = Meter.CreateHistogram<int>("recommender.answer.eligible", "{exercise}", "Exercises that no gate refused.",
        advice: new InstrumentAdvice<int> { HistogramBucketBoundaries = [0, 1, 5, 10, 20, 50, 100, 200, 400] });

    private static readonly Counter<int> Answers = Meter.CreateCounter<int>("recommender.answers", "{answer}", "Answers by kind and status.");

    /// <summary>An answer is computed until the value is disposed.</summary>
    internal static Step Compute(string kind) => new(kind, Source.StartActivity("compute answer"), Stopwatch.GetTimestamp());

    /// <summary>A computation that goes on.</summary>
    internal readonly struct Step(string kind, Activity? span, long begun) : IDisposable
    {
        /// <summary>It gave an answer.</summary>
        public void Answered(IDecided answer)
        {
            var kindTag = new KeyValuePair<string, object?>("kind", kind);
            Answers.Add(1, kindTag, new KeyValuePair<string, object?>("status", answer.Status switch { AnswerStatus.Answered => "answered", AnswerStatus.Referred => "referred", _ => "nothing-eligible" }));
            Eligible.Record(answer.EligibleCount, kindTag);
            span?.SetTag("recommender.kind", kind).SetTag("recommender.eligible", answer.EligibleCount);
        }

        public void Dispose()
        {
            Time.Record(Stopwatch.GetElapsedTime(begun).TotalSeconds, new KeyValuePair<string, object?>("kind", kind));
            span?.Dispose();
        }
    }
}
