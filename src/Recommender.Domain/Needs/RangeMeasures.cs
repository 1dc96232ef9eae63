using Recommender.Domain.Needs.Measures;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>Hip rotation arc, Y-balance and trunk endurance.</summary>
internal static class RangeMeasures
{
    private const string Trunk = "trunkHoldSeconds";

    /// <summary>Adds what can be derived.</summary>
    public static void Add(MeasureSheet sheet, TestResults tests)
    {
        foreach (var side in new[] { Side.Left, Side.Right })
        {
            if (sheet.Find("hipInternalRotationDegrees", side) is { } inner && sheet.Find("hipExternalRotationDegrees", side) is { } outer)
            {
                sheet.Derive("hipRotationArc", inner.Value + outer.Value, side, null, "hipInternalRotationDegrees", "hipExternalRotationDegrees");
            }
        }

        if (tests.YBalance is { } balance)
        {
            sheet.Note("yBalance");
            Reach(sheet, Side.Left, balance.Left, balance.LegLengthCm);
            Reach(sheet, Side.Right, balance.Right, balance.LegLengthCm);
        }

        Holds(sheet, tests.TrunkHoldSeconds);
    }

    private static void Reach(MeasureSheet sheet, Side side, YBalanceReach? reach, decimal? legLength)
    {
        if (reach?.AnteriorCm is { } anterior)
        {
            sheet.Derive("yBalanceAnteriorCm", anterior, side, null, "yBalance");
        }

        if (reach is { AnteriorCm: { } front, PosteromedialCm: { } inward, PosterolateralCm: { } outward } && legLength is { } leg)
        {
            sheet.Derive("yBalanceComposite", YBalance.Composite(front, inward, outward, leg), side, null, "yBalance");
        }
    }

    private static void Holds(MeasureSheet sheet, TrunkHolds? holds)
    {
        if (holds is null)
        {
            return;
        }

        if (holds.SideLeft is { } left)
        {
            sheet.Derive("sideBridgeHold", left, Side.Left, null, Trunk);
        }

        if (holds.SideRight is { } right)
        {
            sheet.Derive("sideBridgeHold", right, Side.Right, null, Trunk);
        }

        if (holds.Extensor is not (> 0 and { } extensor))
        {
            return;
        }

        if (holds.Flexor is { } flexor)
        {
            sheet.Derive("trunkFlexorExtensorRatio", TrunkRatios.FlexorToExtensor(flexor, extensor), null, null, Trunk);
        }

        if (holds is { SideLeft: { } one, SideRight: { } other })
        {
            sheet.Derive("trunkSideExtensorRatio", TrunkRatios.SideBridgeToExtensor(one, other, extensor), null, null, Trunk);
        }
    }
}
