using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Strength for body mass, maxima from sets to failure, and the balance of shoulder rotation.</summary>
internal static class StrengthMeasures
{
    /// <summary>Adds what can be derived.</summary>
    public static void Add(MeasureSheet sheet, AthleteFacts athlete)
    {
        if (athlete.BodyMassKg is { } mass)
        {
            PerKilogram(sheet, "isometricPeakForceN", "isometricForcePerKg", mass);
            PerKilogram(sheet, "nordicForceN", "nordicForcePerKg", mass);
            PerKilogram(sheet, "isokineticHamstringNm", "isokineticHamstringPerKg", mass);
            PerKilogram(sheet, "adductorSqueezeN", "adductorSqueezePerKg", mass);
        }

        foreach (var side in new[] { Side.Left, Side.Right })
        {
            if (sheet.Find("shoulderExternalRotationN", side) is { } external && sheet.Find("shoulderInternalRotationN", side) is { } inner)
            {
                sheet.Derive("shoulderRotationRatio", ShoulderRotation.Ratio(external.Value, inner.Value), side, null, "shoulderExternalRotationN", "shoulderInternalRotationN");
            }
        }
    }

    /// <summary>Adds what stated maxima and sets to failure give.</summary>
    public static void AddMaxima(MeasureSheet sheet, TestResults? tests, AthleteFacts athlete, ExerciseCatalogue catalogue)
    {
        foreach (var (exercise, kg) in athlete.OneRepMaxKg?.OrderBy(m => catalogue.PositionOf(m.Key)) ?? Enumerable.Empty<KeyValuePair<string, decimal>>())
        {
            Relative(exercise, kg, "oneRepMaxKg");
        }

        foreach (var (exercise, set) in tests?.RepetitionsToFailure?.OrderBy(s => catalogue.PositionOf(s.Key)) ?? Enumerable.Empty<KeyValuePair<string, LiftToFailure>>())
        {
            sheet.Note("repetitionsToFailure");
            if (set is not { LoadKg: { } load, Repetitions: { } repetitions })
            {
                continue;
            }

            if (OneRepMaxEstimate.Lowest(load, repetitions) is not { } estimate)
            {
                sheet.Caution($"{catalogue.Find(exercise)!.Name}: more than {OneRepMaxEstimate.MostRepetitions} repetitions to failure say too little about the maximum, so none is estimated.");
                continue;
            }

            sheet.Derive($"estimatedOneRepMaxKg/{exercise}", estimate, null, catalogue.Find(exercise)!.Name, "repetitionsToFailure");
            Relative(exercise, estimate, "repetitionsToFailure");
        }

        void Relative(string exercise, decimal kg, string from)
        {
            if (athlete.BodyMassKg is { } mass)
            {
                sheet.Derive($"relativeStrength/{exercise}", RelativeStrength.PerKilogram(kg, mass), null, catalogue.Find(exercise)!.Name, from);
            }
        }
    }

    private static void PerKilogram(MeasureSheet sheet, string test, string measure, decimal bodyMassKg)
    {
        foreach (var reading in sheet.Of(test))
        {
            sheet.Derive(measure, RelativeStrength.PerKilogram(reading.Value, bodyMassKg), reading.Side, null, test);
        }
    }
}
