namespace Recommender.Domain.Needs.Measures;

/// <summary>Ratios of trunk endurance holds, no unit. Source: mcgill-1999.</summary>
public static class TrunkRatios
{
    /// <summary>Flexor hold over extensor hold.</summary>
    public static decimal FlexorToExtensor(decimal flexor, decimal extensor) => flexor / extensor;

    /// <summary>Mean of both side bridges over extensor hold.</summary>
    public static decimal SideBridgeToExtensor(decimal left, decimal right, decimal extensor) => (left + right) / 2 / extensor;
}
