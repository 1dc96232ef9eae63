namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// Horizontal force-velocity profile of a sprint, per kilogram of body mass: Fh = a + drag, line of Fh on v, ratio of force RF = Fh / sqrt(Fh^2 + g^2). Source: samozino-2016.
/// </summary>
/// <param name="Force">F0, newtons per kilogram.</param>
/// <param name="Velocity">v0, metres per second.</param>
/// <param name="RatioMax">Largest ratio of force from 0.3 s on, 0 to 1.</param>
/// <param name="RatioSlope">Fall of the ratio of force with speed from 0.3 s on (DRF), per metre per second; negative.</param>
public readonly record struct SprintProfile(double Force, double Velocity, double RatioMax, double RatioSlope)
{
    // The profile is read over six seconds at 100 Hz, the ratio of force from 0.3 s on, as in the record that the tests hold it against.
    private const int Samples = 601;
    private const int FirstOfRatio = 30;
    private const double Step = 0.01;

    /// <summary>Greatest power, F0 v0 / 4, watts per kilogram.</summary>
    public double Power => Force * Velocity / 4;

    /// <summary>Slope, -F0 / v0, newton seconds per metre and kilogram; negative.</summary>
    public double Slope => -Force / Velocity;

    /// <summary>The profile of a fitted sprint.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="dragPerKilogram">Air drag factor over body mass, per metre; 0 leaves drag out.</param>
    public static SprintProfile Of(SprintFit fit, double dragPerKilogram)
    {
        var (speeds, forces, ratios) = (new double[Samples], new double[Samples], new double[Samples]);
        for (var i = 0; i < Samples; i++)
        {
            speeds[i] = fit.SpeedAt(i * Step);
            forces[i] = fit.AccelerationAt(i * Step) + (dragPerKilogram * speeds[i] * speeds[i]);
            ratios[i] = RatioOf(forces[i]);
        }

        var line = LinearFit.Of(speeds, forces);
        var fall = LinearFit.Of(speeds[FirstOfRatio..], ratios[FirstOfRatio..]);
        return new SprintProfile(line.Intercept, -line.Intercept / line.Slope, ratios[FirstOfRatio..].Max(), fall.Slope);
    }

    /// <summary>Ratio of force: the forward share of the whole push, 0 to 1.</summary>
    /// <param name="forward">Forward force, newtons per kilogram.</param>
    public static double RatioOf(double forward) => forward / Math.Sqrt((forward * forward) + (Gravity.Standard * Gravity.Standard));
}
