namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// Air drag of a runner: k = 0.5 rho A Cd in kilograms per metre, so that drag is k v^2 newtons. rho = 1.293 (p / 760) 273 / (273 + T) with p in torr and T in degrees Celsius;
/// A = 0.2025 H^0.725 m^0.425 x 0.266 square metres with stature H in metres and mass m in kilograms; Cd = 0.9. Source: samozino-2016.
/// </summary>
public static class AirDrag
{
    private const double Coefficient = 0.9;

    /// <summary>The factor k, kilograms per metre.</summary>
    /// <param name="bodyMassKg">Body mass, kilograms.</param>
    /// <param name="statureMetres">Stature, metres.</param>
    /// <param name="temperatureC">Air temperature, degrees Celsius.</param>
    /// <param name="pressureTorr">Air pressure, torr.</param>
    public static double Factor(double bodyMassKg, double statureMetres, double temperatureC, double pressureTorr)
    {
        var density = 1.293 * (pressureTorr / 760) * 273 / (273 + temperatureC);
        var area = 0.2025 * Math.Pow(statureMetres, 0.725) * Math.Pow(bodyMassKg, 0.425) * 0.266;
        return 0.5 * density * area * Coefficient;
    }
}
