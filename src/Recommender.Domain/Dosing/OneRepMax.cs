using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>An athlete's one-repetition maximum, known or reckoned from a related lift.</summary>
public static class OneRepMax
{
    /// <summary>The maximum of an exercise: as sent, else estimated from repetitions to failure, else reckoned from related lifts.</summary>
    /// <returns>Kilograms, whole load; null when neither it nor a related lift is known. The smallest of several reckonings.</returns>
    public static decimal? Of(Situation situation, string exercise)
    {
        if (situation.Request.Athlete!.OneRepMaxKg is null && situation.Request.Tests?.RepetitionsToFailure is null)
        {
            return null;
        }

        if (Known(situation, exercise) is { } own)
        {
            return own;
        }

        decimal? smallest = null;
        foreach (var ratio in situation.Knowledge.Dose.LoadRatios)
        {
            if (ratio.Exercise == exercise && Known(situation, ratio.Of) is { } other && !(other * ratio.Ratio >= smallest))
            {
                smallest = other * ratio.Ratio;
            }
        }

        return smallest;
    }

    private static decimal? Known(Situation situation, string exercise) =>
        situation.Request.Athlete!.OneRepMaxKg?.TryGetValue(exercise, out var sent) == true ? sent
        : situation.Request.Tests?.RepetitionsToFailure?.TryGetValue(exercise, out var set) == true && set is { LoadKg: { } load, Repetitions: { } repetitions } ? OneRepMaxEstimate.Lowest(load, repetitions)
        : null;
}
