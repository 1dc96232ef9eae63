using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>An athlete's one-repetition maximum, known or reckoned from a related lift.</summary>
public static class OneRepMax
{
    /// <summary>The maximum of an exercise.</summary>
    /// <returns>Kilograms, whole load; null when neither it nor a related lift is known. The smallest of several reckonings.</returns>
    public static decimal? Of(Situation situation, string exercise)
    {
        if (situation.Request.Athlete!.OneRepMaxKg is not { } known)
        {
            return null;
        }

        if (known.TryGetValue(exercise, out var own))
        {
            return own;
        }

        decimal? smallest = null;
        foreach (var ratio in situation.Knowledge.Dose.LoadRatios)
        {
            if (ratio.Exercise == exercise && known.TryGetValue(ratio.Of, out var other) && !(other * ratio.Ratio >= smallest))
            {
                smallest = other * ratio.Ratio;
            }
        }

        return smallest;
    }
}
