using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>Minutes that sets of an exercise take.</summary>
public static class SessionTime
{
    /// <summary>Set-up, work on each side, and rest between sets; whole tenths, rounded up.</summary>
    /// <param name="exercise">Gives set-up, seconds a unit and sides.</param>
    /// <param name="sets">Sets, at least 1.</param>
    /// <param name="amount">Amount of a set.</param>
    /// <param name="restSeconds">Rest between sets, seconds.</param>
    /// <remarks>seconds = sets x amount x seconds per unit + (sets - 1) x rest, as the published session-time estimates reckon it.</remarks>
    public static decimal Minutes(Exercise exercise, int sets, decimal amount, int restSeconds)
    {
        var (work, rest) = Seconds(exercise, sets, amount, restSeconds);
        return exercise.SetUpMinutes + (decimal.Ceiling((work + rest) / 6m) / 10m);
    }

    /// <summary>Seconds of work, each side, and of rest between sets.</summary>
    /// <param name="exercise">Gives seconds a unit and sides.</param>
    /// <param name="sets">Sets, at least 1.</param>
    /// <param name="amount">Amount of a set.</param>
    /// <param name="restSeconds">Rest between sets, seconds.</param>
    public static (decimal Work, decimal Pause) Seconds(Exercise exercise, int sets, decimal amount, int restSeconds) =>
        (sets * amount * exercise.SecondsPerRepetition * (exercise.PerSide ? 2 : 1), (sets - 1) * restSeconds);
}
