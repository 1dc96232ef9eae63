using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>The vertical force-velocity profile of loaded squat jumps.</summary>
internal static class LoadedJumpMeasures
{
    private const string Jumps = "loadedJumps";
    private const string PushOff = "pushOffDistanceCm";

    /// <summary>Adds the profile where body mass, push-off distance and enough loads are known.</summary>
    public static void Add(MeasureSheet sheet, TestResults tests, AthleteFacts athlete)
    {
        if (tests.LoadedJumps is not { Count: > 0 } sent)
        {
            return;
        }

        sheet.Note(Jumps);
        List<(double LoadKg, double HeightMetres)> jumps = [.. sent.Where(j => j is { LoadKg: not null, HeightCm: not null }).Select(j => ((double)j.LoadKg!.Value, (double)j.HeightCm!.Value / 100))];
        var least = (int)sheet.Use.LeastLoads.Value;
        if (athlete.BodyMassKg is not { } mass || tests.PushOffDistanceCm is not { } pushOff || jumps.Select(j => j.LoadKg).Distinct().Count() < least)
        {
            sheet.Caution($"A force-velocity profile of loaded jumps needs body mass, push-off distance and at least {least} different loads with their heights.");
            return;
        }

        var metres = (double)pushOff / 100;
        if (VerticalProfile.Of(jumps, (double)mass, metres) is not { } profile)
        {
            sheet.Caution("The loaded jumps give no force-velocity profile: the heights must fall as the load rises. Test them again.");
            return;
        }

        var sound = (decimal)Math.Round(profile.Fit, 4) >= sheet.Use.LeastFit.Value;
        if (!sound)
        {
            sheet.Caution($"The loaded jumps scatter around their line (R squared {Math.Round(profile.Fit, 2):0.00}): the profile is shown and not used. Test them again.");
        }

        void Show(string measure, double value) => sheet.Derive(measure, value, null, sound, Jumps, PushOff);
        var optimal = VerticalProfile.OptimalSlope(profile.Power, metres);
        Show("verticalForce", profile.Force);
        Show("verticalVelocity", profile.Velocity);
        Show("verticalPower", profile.Power);
        Show("verticalSlope", profile.Slope);
        Show("verticalOptimalSlope", optimal);
        Show("forceVelocityImbalancePercent", 100 * profile.Slope / optimal);
        Show("jumpHeightAtStakeCm", 100 * (Height(optimal) - Height(profile.Slope)));

        double Height(double slope) => Math.Pow(VerticalProfile.TakeOffSpeed(profile.Power, slope, metres), 2) / (2 * Gravity.Standard);
    }
}
