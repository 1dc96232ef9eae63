namespace Recommender.Domain.Needs.Measures;

/// <summary>How much of the isometric force a jump uses. It falls as strength rises, which is no loss. Source: dsi-methods-2025.</summary>
public static class DynamicStrength
{
    /// <summary>Peak force of the countermovement jump over that of the isometric pull or squat; no unit.</summary>
    /// <param name="jumpNewtons">Peak force of the jump, newtons.</param>
    /// <param name="isometricNewtons">Isometric peak force, newtons, above 0.</param>
    public static decimal Index(decimal jumpNewtons, decimal isometricNewtons) => jumpNewtons / isometricNewtons;
}
