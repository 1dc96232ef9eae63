namespace Recommender.Domain.Needs.Measures;

/// <summary>Gravity as the field's equations take it.</summary>
public static class Gravity
{
    /// <summary>Metres per second squared.</summary>
    public const double Standard = 9.81;
}
