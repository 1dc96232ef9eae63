namespace Recommender.Domain.Needs.Measures;

/// <summary>Strength for the body it has to move.</summary>
public static class RelativeStrength
{
    /// <summary>One-repetition maximum (kilograms), force (newtons) or torque (newton metres) for each kilogram of body mass.</summary>
    /// <param name="strength">The strength.</param>
    /// <param name="bodyMassKg">Body mass, kilograms, above 0.</param>
    public static decimal PerKilogram(decimal strength, decimal bodyMassKg) => strength / bodyMassKg;
}
