namespace Recommender.Domain.Needs.Measures;

/// <summary>
/// Height of a jump, its flight time and its take-off speed: h = g t^2 / 8 and v = sqrt(2 g h), h in metres, t in seconds, v in metres per second.
/// Landing with bent legs overstates the height. Source: linthorne-2001.
/// </summary>
public static class JumpHeight
{
    /// <summary>Height in metres from flight time in seconds.</summary>
    public static double FromFlight(double seconds) => Gravity.Standard * seconds * seconds / 8;

    /// <summary>Flight time in seconds from height in metres.</summary>
    public static double Flight(double metres) => Math.Sqrt(8 * metres / Gravity.Standard);

    /// <summary>Take-off speed in metres per second from height in metres.</summary>
    public static double TakeOffSpeed(double metres) => Math.Sqrt(2 * Gravity.Standard * metres);
}
