using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>Doses an exercise for the quality it was picked for.</summary>
public static class DoseCalculator
{
    /// <summary>The dose of one pick.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="position">Catalogue position of the pick.</param>
    /// <param name="quality">Position of the quality it was picked for.</param>
    /// <returns>A dose that fits the minutes at hand, where any are stated.</returns>
    public static Dose Prescribe(Situation situation, int position, int quality)
    {
        var exercise = situation.Catalogue.Exercises[position];
        var row = situation.Edition.DoseTable.RowFor(position, quality, situation.DoseRows);
        var phase = (int)situation.Phase;
        var sets = row.Sets[phase];
        while (sets > row.MinSets && row.Minutes(exercise, situation.Phase, sets) > situation.Minutes)
        {
            sets--;
        }

        var intensity = new Intensity(row.Intensity.Kind, row.Intensity.Low?[phase], row.Intensity.High?[phase]);
        return new Dose(sets, row.Amount[phase], exercise.DoseUnit, exercise.PerSide, intensity, LoadKg(situation, exercise, intensity), row.RestSeconds, row.Tempo,
            row.SessionsPerWeek[phase], row.Minutes(exercise, situation.Phase, sets), row.Progression, row.StopRule, row.Basis, row.Source);
    }

    /// <summary>The lower end of the intensity in kilograms, rounded down to what a bar can carry; null when no maximum is known or not even an empty bar is left.</summary>
    private static decimal? LoadKg(Situation situation, Exercise exercise, Intensity intensity)
    {
        if (intensity is not { Kind: "percent-1rm", Low: { } percent } || OneRepMax.Of(situation, exercise.Id) is not { } max)
        {
            return null;
        }

        var step = situation.Knowledge.Dose.LoadStepKg.Value;
        var load = decimal.Floor(max * percent / 100 / step) * step;
        return load >= situation.Knowledge.Dose.LightestBarKg.Value ? load : null;
    }
}
