namespace Recommender.Domain.Needs.Measures;

/// <summary>Peak power of a jump, watts, from its height h in centimetres and body mass m in kilograms. Group equations: watts of one athlete are a rough guide.</summary>
public static class JumpPeakPower
{
    /// <summary>60.7 h + 45.3 m - 2055, squat jump. Source: sayers-1999.</summary>
    public static double SayersSquatJump(double heightCm, double bodyMassKg) => (60.7 * heightCm) + (45.3 * bodyMassKg) - 2055;

    /// <summary>51.9 h + 48.9 m - 2007, countermovement jump. Source: sayers-1999, this form recalled and held against a published sample.</summary>
    public static double SayersCounterMovementJump(double heightCm, double bodyMassKg) => (51.9 * heightCm) + (48.9 * bodyMassKg) - 2007;

    /// <summary>65.1 h + 25.8 m - 1413.1, countermovement jump of women, for whom the equation above reads about a fifth too high. Source: canavan-vescovi-2004.</summary>
    public static double CanavanVescovi(double heightCm, double bodyMassKg) => (65.1 * heightCm) + (25.8 * bodyMassKg) - 1413.1;
}
