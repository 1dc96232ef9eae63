using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>The sprint profile of split times.</summary>
internal static class SprintMeasures
{
    private const string Splits = "sprintSplits";

    /// <summary>Adds the profile where there are enough splits; without a stated start it is shown and not used.</summary>
    public static void Add(MeasureSheet sheet, TestResults tests, AthleteFacts athlete)
    {
        if (tests.SprintSplits is not { Count: > 0 } sent)
        {
            return;
        }

        sheet.Note(Splits);
        var correction = (double)sheet.Use.StartCorrectionSeconds[tests.SprintStart ?? "first-movement"].Value;
        List<(double Metres, double Seconds)> splits = [.. sent.Where(s => s is { DistanceM: not null, Seconds: not null })
            .Select(s => ((double)s.DistanceM!.Value, (double)s.Seconds!.Value + correction)).Where(s => s.Item2 > 0)];
        var least = (int)sheet.Use.LeastSplits.Value;
        if (splits.Select(s => s.Metres).Distinct().Count() < least)
        {
            sheet.Caution($"A sprint profile needs at least {least} different distances with their times.");
            return;
        }

        if (SprintFit.Of(splits) is not { } fit || fit.TopSpeed > (double)sheet.Use.FastestMetresPerSecond.Value)
        {
            sheet.Caution("The splits show no acceleration that levels off at a possible speed: check the times and how the clock started, or take splits to a longer distance.");
            return;
        }

        var clear = (decimal)Math.Round(fit.Misfit, 4) <= sheet.Use.MostMisfitSeconds.Value;
        if (!clear)
        {
            sheet.Caution("The splits scatter around their curve: the sprint profile is shown and not used. Check the times.");
        }

        if (tests.SprintStart is null)
        {
            sheet.Caution("How the sprint clock started was not said (tests.sprintStart), and three tenths of a second change the profile: it is shown and not used. Compare only runs timed alike.");
        }

        Show(sheet, fit, athlete, clear && tests.SprintStart is not null);
    }

    private static void Show(MeasureSheet sheet, SprintFit fit, AthleteFacts athlete, bool sound)
    {
        var drag = athlete is { BodyMassKg: { } mass, StatureCm: { } stature }
            ? AirDrag.Factor((double)mass, (double)stature / 100, (double)sheet.Use.AirTemperatureC.Value, (double)sheet.Use.AirPressureTorr.Value) / (double)mass
            : 0;
        if (drag == 0)
        {
            sheet.Caution("Body mass and stature are not both known: the sprint profile leaves air drag out.");
        }

        var profile = SprintProfile.Of(fit, drag);
        void Add(string measure, double value) => sheet.Derive(measure, value, null, sound, Splits);
        Add("sprintTopSpeed", fit.TopSpeed);
        Add("sprintTimeConstant", fit.TimeConstant);
        Add("sprintForce", profile.Force);
        Add("sprintVelocity", profile.Velocity);
        Add("sprintPower", profile.Power);
        Add("sprintSlope", profile.Slope);
        Add("sprintRatioOfForceMax", 100 * profile.RatioMax);
        Add("sprintRatioOfForceFall", profile.RatioSlope);
    }
}
