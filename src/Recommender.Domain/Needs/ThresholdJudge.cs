using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>A reading held against a threshold that holds for the athlete.</summary>
/// <param name="Threshold">The threshold.</param>
/// <param name="Bound">Its bound for this athlete.</param>
/// <param name="Reading">The reading.</param>
/// <param name="Verdict">What this reading alone says.</param>
internal sealed record Judgement(TestThreshold Threshold, decimal Bound, MeasureReading Reading, ThresholdVerdict Verdict);

/// <summary>Holds readings against the thresholds: need, no need, or cannot tell within the error of the bound.</summary>
internal static class ThresholdJudge
{
    /// <summary>Every reading against every threshold of its measure that holds for the athlete, in the order of the thresholds.</summary>
    public static IEnumerable<Judgement> All(Situation situation, MeasureSheet sheet)
    {
        foreach (var threshold in situation.Knowledge.Tests.Thresholds)
        {
            var readings = sheet.Of(threshold.Measure);
            if (readings.Count > 0 && BoundFor(threshold, situation) is { } bound)
            {
                foreach (var reading in readings)
                {
                    yield return new Judgement(threshold, bound, reading, Say(threshold, bound, reading));
                }
            }
        }
    }

    /// <summary>
    /// What the readings of one threshold say together: of several readings of a side the kindest, so that a need is raised only where all say so; of the two sides the worse.
    /// </summary>
    public static ThresholdVerdict Together(IEnumerable<Judgement> judgements) => judgements.GroupBy(j => j.Reading.Side).Max(side => side.Min(j => j.Verdict));

    /// <summary>The bound for an athlete; null where the threshold does not hold. A norm of a sex or an age needs that sex or age to be known.</summary>
    public static decimal? BoundFor(TestThreshold threshold, Situation situation)
    {
        var athlete = situation.Request.Athlete!;
        if (threshold.EventGroups?.Contains(situation.EventGroup, StringComparer.Ordinal) == false
            || (threshold.Sex is not null && threshold.Sex != athlete.Sex)
            || situation.AgeYears < threshold.MinAgeYears || situation.AgeYears > threshold.MaxAgeYears)
        {
            return null;
        }

        foreach (var norm in threshold.Norms ?? [])
        {
            var aged = (norm.MinAgeYears is null && norm.MaxAgeYears is null) || (athlete.AgeYears is { } age && !(age < norm.MinAgeYears) && !(age > norm.MaxAgeYears));
            if (aged && (norm.Sex is null || norm.Sex == athlete.Sex))
            {
                return norm.Bound;
            }
        }

        return threshold.Below ?? threshold.Above;
    }

    /// <summary>How far a value lies beyond a bound; negative on the good side.</summary>
    public static decimal Beyond(TestThreshold threshold, decimal bound, decimal value) => threshold.Below is not null ? bound - value : value - bound;

    private static ThresholdVerdict Say(TestThreshold threshold, decimal bound, MeasureReading reading)
    {
        var beyond = Beyond(threshold, bound, reading.Value);
        return beyond < -threshold.MeasurementError || (threshold.MeasurementError == 0 && beyond <= 0) ? ThresholdVerdict.NoNeed
            : beyond > threshold.MeasurementError && reading.Sound ? ThresholdVerdict.Need
            : ThresholdVerdict.CannotTell;
    }
}
