namespace Recommender.Domain.Needs.Measures;

/// <summary>How alike two sides are.</summary>
public static class LimbSymmetry
{
    /// <summary>Limb symmetry index: 100 x lower side / higher side, percent. Source: jat-hop-2022.</summary>
    /// <param name="left">Left, not negative.</param>
    /// <param name="right">Right, not negative; one of them above 0.</param>
    public static decimal Index(decimal left, decimal right) => 100 * Math.Min(left, right) / Math.Max(left, right);

    /// <summary>Difference of the sides, in their unit.</summary>
    public static decimal Difference(decimal left, decimal right) => Math.Abs(left - right);
}
