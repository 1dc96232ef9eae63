namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// Vertical force-velocity profile of loaded squat jumps, per kilogram of body mass. It describes the task, not the muscle. Sources: samozino-2008 (force and
/// velocity of one jump), samozino-2012 (line, optimal slope, take-off speed).
/// </summary>
/// <param name="Force">Theoretical greatest force F0, newtons per kilogram.</param>
/// <param name="Velocity">Theoretical greatest velocity v0, metres per second.</param>
/// <param name="Fit">R squared of the line.</param>
public readonly record struct VerticalProfile(double Force, double Velocity, double Fit)
{
    /// <summary>Greatest power, F0 v0 / 4, watts per kilogram.</summary>
    public double Power => Force * Velocity / 4;

    /// <summary>Slope, -F0 / v0, newton seconds per metre and kilogram; negative.</summary>
    public double Slope => -Force / Velocity;

    /// <summary>The profile of several jumps.</summary>
    /// <param name="jumps">Added load in kilograms and jump height in metres; at least two different heights.</param>
    /// <param name="bodyMassKg">Body mass, kilograms.</param>
    /// <param name="pushOffMetres">Push-off distance, metres.</param>
    /// <returns>Null when the line does not fall from more than the body's own weight, so that there is no profile.</returns>
    public static VerticalProfile? Of(IReadOnlyList<(double LoadKg, double HeightMetres)> jumps, double bodyMassKg, double pushOffMetres)
    {
        var velocities = jumps.Select(j => MeanVelocity(j.HeightMetres)).ToList();
        if (velocities.Distinct().Count() < 2)
        {
            return null;
        }

        var line = LinearFit.Of(velocities, [.. jumps.Select(j => MeanForce(bodyMassKg + j.LoadKg, j.HeightMetres, pushOffMetres) / bodyMassKg)]);
        return line.Slope < 0 && line.Intercept > Gravity.Standard ? new VerticalProfile(line.Intercept, -line.Intercept / line.Slope, line.Fit) : null;
    }

    /// <summary>Mean force of one push-off, M g (h / hPO + 1), newtons. Source: samozino-2008.</summary>
    /// <param name="movedKg">Body and load together, kilograms.</param>
    /// <param name="heightMetres">Jump height, metres.</param>
    /// <param name="pushOffMetres">Push-off distance, metres.</param>
    public static double MeanForce(double movedKg, double heightMetres, double pushOffMetres) => movedKg * Gravity.Standard * ((heightMetres / pushOffMetres) + 1);

    /// <summary>Mean velocity of one push-off, sqrt(g h / 2), metres per second. Source: samozino-2008.</summary>
    public static double MeanVelocity(double heightMetres) => Math.Sqrt(Gravity.Standard * heightMetres / 2);

    /// <summary>
    /// Take-off speed of a vertical push-off, hPO (sqrt(S^2 / 4 + (2 / hPO) (2 sqrt(-P S) - g)) + S / 2), metres per second. Valid while F0 exceeds g. Source: samozino-2012.
    /// </summary>
    /// <param name="power">Greatest power P, watts per kilogram.</param>
    /// <param name="slope">Slope S, newton seconds per metre and kilogram; negative.</param>
    /// <param name="pushOffMetres">Push-off distance hPO, metres.</param>
    public static double TakeOffSpeed(double power, double slope, double pushOffMetres) =>
        pushOffMetres * (Math.Sqrt((slope * slope / 4) + (2 / pushOffMetres * ((2 * Math.Sqrt(-power * slope)) - Gravity.Standard))) + (slope / 2));

    /// <summary>
    /// The slope at which the same power would jump highest; negative. Closed form after samozino-2012, recalled, and held in the tests against a direct search for the
    /// fastest take-off.
    /// </summary>
    /// <param name="power">Greatest power, watts per kilogram.</param>
    /// <param name="pushOffMetres">Push-off distance, metres.</param>
    public static double OptimalSlope(double power, double pushOffMetres)
    {
        const double g = Gravity.Standard;
        var (h, p) = (pushOffMetres, power);
        var inner = (-Math.Pow(g, 6) * Math.Pow(h, 6)) - (18 * Math.Pow(g, 3) * Math.Pow(h, 5) * p * p) - (54 * Math.Pow(h, 4) * Math.Pow(p, 4))
            + (6 * Math.Sqrt(3) * Math.Sqrt((2 * Math.Pow(g, 3) * Math.Pow(h, 9) * Math.Pow(p, 6)) + (27 * Math.Pow(h, 8) * Math.Pow(p, 8))));

        // The bracket is negative; a power of one third would not be a number, the real cube root is.
        var z = Math.Cbrt(inner);
        return (-g * g / (3 * p)) - (((-Math.Pow(g, 4) * Math.Pow(h, 4)) - (12 * g * Math.Pow(h, 3) * p * p)) / (3 * h * h * p * z)) + (z / (3 * h * h * p));
    }
}
