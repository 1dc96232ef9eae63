using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>What jumps without load tell: heights, take-off speed, rebound, utilisation, power, and the share of isometric force.</summary>
internal static class JumpMeasures
{
    private const string Jump = "counterMovementJumpCm";
    private const string Flight = "counterMovementJumpFlightMs";
    private const string Squat = "squatJumpCm";
    private const string Drop = "dropJump";

    /// <summary>Adds what can be derived.</summary>
    public static void Add(MeasureSheet sheet, TestResults tests, AthleteFacts athlete)
    {
        if (tests.CounterMovementJumpFlightMs is { } flight)
        {
            sheet.Derive(Jump, 100 * JumpHeight.FromFlight((double)flight / 1000), null, true, Flight);
        }

        if (sheet.Find(Jump) is { } jump)
        {
            sheet.Derive("takeOffSpeed", JumpHeight.TakeOffSpeed((double)jump.Value / 100), null, true, [.. jump.From]);
            Utilisation(sheet, tests, jump);
        }

        Power(sheet, tests, athlete);
        Rebound(sheet, tests.DropJump);
        if (tests is { JumpPeakForceN: { } dynamic, IsometricPeakForceN: { } isometric })
        {
            sheet.Derive("dynamicStrengthIndex", DynamicStrength.Index(dynamic, isometric), null, null, "jumpPeakForceN", "isometricPeakForceN");
        }
    }

    private static void Utilisation(MeasureSheet sheet, TestResults tests, MeasureReading jump)
    {
        if (tests.SquatJumpCm is not { } squat)
        {
            return;
        }

        sheet.Derive("eccentricUtilisationRatio", EccentricUtilisation.Ratio(jump.Value, squat), null, null, [.. jump.From, Squat]);
        if (squat > jump.Value * (1 + sheet.Use.SquatJumpExcessShare.Value))
        {
            sheet.Caution($"The squat jump ({MeasureSheet.Text(squat)} cm) is far above the counter-movement jump ({MeasureSheet.Text(jump.Value)} cm): look for a dip in the squat jump or a held-back counter-movement jump, and test both again.");
        }
    }

    private static void Power(MeasureSheet sheet, TestResults tests, AthleteFacts athlete)
    {
        if (athlete.BodyMassKg is not { } mass)
        {
            return;
        }

        if (tests.SquatJumpCm is { } squat)
        {
            sheet.Derive("squatJumpPeakPowerW", JumpPeakPower.SayersSquatJump((double)squat, (double)mass), null, true, Squat);
        }

        if (sheet.Find(Jump) is { } jump)
        {
            var (height, kilograms) = ((double)jump.Value, (double)mass);
            if (athlete.Sex == "female")
            {
                sheet.Derive("jumpPeakPowerWomenW", JumpPeakPower.CanavanVescovi(height, kilograms), null, true, [.. jump.From]);
            }
            else
            {
                sheet.Derive("jumpPeakPowerW", JumpPeakPower.SayersCounterMovementJump(height, kilograms), null, true, [.. jump.From]);
            }
        }
    }

    private static void Rebound(MeasureSheet sheet, DropJumpResult? drop)
    {
        if (drop is null)
        {
            return;
        }

        var height = (double?)drop.HeightCm / 100;
        if (drop.FlightMs is { } flight)
        {
            var reckoned = JumpHeight.FromFlight((double)flight / 1000);
            sheet.Derive("dropJumpHeightCm", 100 * reckoned, null, true, Drop);
            if (height is { } stated && Math.Abs(stated - reckoned) > (double)sheet.Use.DisagreementShare.Value * Math.Max(stated, reckoned))
            {
                sheet.Caution("Height and flight time of the drop jump disagree: check both. The height is used.");
            }

            height ??= reckoned;
        }

        if (height is not { } metres || drop.ContactMs is not { } contact)
        {
            return;
        }

        sheet.Derive("reactiveStrengthIndex", ReactiveStrength.Index(metres, (double)contact / 1000), null, true, Drop);
        sheet.Derive("reactiveStrengthRatio", ReactiveStrength.Ratio((double?)drop.FlightMs / 1000 ?? JumpHeight.Flight(metres), (double)contact / 1000), null, true, Drop);
        if (contact >= sheet.Use.SlowContactMs.Value)
        {
            sheet.Caution($"The drop jump's contact of {MeasureSheet.Text(contact)} ms is not a fast rebound (that is below {MeasureSheet.Text(sheet.Use.SlowContactMs.Value)} ms): read its index as landing strength, or test from a lower box.");
        }
    }
}
