namespace Recommender.Domain.Needs.Measures;

/// <summary>Balance of the muscles that turn the arm.</summary>
public static class ShoulderRotation
{
    /// <summary>External over internal rotation strength of the same shoulder; no unit.</summary>
    /// <param name="external">External rotation, newtons.</param>
    /// <param name="inner">Internal rotation, newtons, above 0.</param>
    public static decimal Ratio(decimal external, decimal inner) => external / inner;
}
