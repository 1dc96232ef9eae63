namespace Recommender.Domain.Needs.Measures;

/// <summary>How much rebound a contact gives. Index and ratio are not the same number and are never mixed. Source: healy-2018.</summary>
public static class ReactiveStrength
{
    /// <summary>Index: jump height over contact time, metres per second.</summary>
    /// <param name="heightMetres">Height, metres.</param>
    /// <param name="contactSeconds">Contact time, seconds, above 0.</param>
    public static double Index(double heightMetres, double contactSeconds) => heightMetres / contactSeconds;

    /// <summary>Ratio: flight time over contact time, no unit.</summary>
    /// <param name="flightSeconds">Flight time, seconds.</param>
    /// <param name="contactSeconds">Contact time, seconds, above 0.</param>
    public static double Ratio(double flightSeconds, double contactSeconds) => flightSeconds / contactSeconds;
}
