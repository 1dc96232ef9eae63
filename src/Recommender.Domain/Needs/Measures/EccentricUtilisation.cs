namespace Recommender.Domain.Needs.Measures;

/// <summary>What a countermovement adds. A high ratio is no merit by itself. Source: mcguigan-2006.</summary>
public static class EccentricUtilisation
{
    /// <summary>Countermovement jump over squat jump, the same quantity in the same unit; no unit.</summary>
    /// <param name="counterMovement">Countermovement jump.</param>
    /// <param name="squat">Squat jump, above 0.</param>
    public static decimal Ratio(decimal counterMovement, decimal squat) => counterMovement / squat;
}
