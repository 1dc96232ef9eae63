using System.Numerics;
using Recommender.Domain.Eligibility.Gates;

namespace Recommender.Domain.Eligibility;

/// <summary>Which exercises pass every gate, and which gates refused the others.</summary>
/// <param name="Limits">Limits and referral of the complaints.</param>
/// <param name="Eligible">Positions in the catalogue, ascending; empty when a referral of scope all ends the line.</param>
/// <param name="RefusedBy">[exercise] bit per gate in <see cref="EligibilityFilter.Gates"/>; 0 for an eligible one.</param>
/// <param name="CountByGate">How many exercises each gate refused; one refused by several counts in each.</param>
/// <param name="Context">What the gates were asked on.</param>
public sealed record EligibilityOutcome(TissueLimits Limits, int[] Eligible, uint[] RefusedBy, int[] CountByGate, GateContext Context);

/// <summary>Asks every gate about every exercise.</summary>
public static class EligibilityFilter
{
    /// <summary>All gates; the order is permanent only within one run.</summary>
    public static IReadOnlyList<Gate> Gates { get; } =
    [
        new ReferredRegionSpared(), new TissueLoadWithinPain(), new UnprovokedWork(), new WithinRestriction(), new AgeSuitable(), new CompetencePresent(), new TrainingAgeEnough(),
        new OutsidePeakingWindow(), new RecoveredSinceLast(), new HardDayKeptFree(), new SlotSuits(), new EquipmentAtHand(), new PlaceSuitable(), new SettingAllows(), new FitsMinutes(),
        new NotExcluded(), new AskedFor(),
    ];

    /// <summary>Applies the gates.</summary>
    /// <returns>Nothing eligible and nothing refused when a referral of scope all ends the line.</returns>
    public static EligibilityOutcome Apply(GateContext context)
    {
        var count = context.Situation.Catalogue.Count;
        var counts = new int[Gates.Count];
        if (context.Limits.Referral?.Scope == "all")
        {
            return new EligibilityOutcome(context.Limits, [], new uint[count], counts, context);
        }

        var refused = new uint[count];
        for (var g = 0; g < Gates.Count; g++)
        {
            var gate = Gates[g];
            if (!gate.Asks(context))
            {
                continue;
            }

            counts[g] = gate.Mark(context, refused, 1U << g);
        }

        var eligible = new int[refused.AsSpan().Count(0U)];
        var n = 0;
        for (var e = 0; e < count; e++)
        {
            if (refused[e] == 0)
            {
                eligible[n++] = e;
            }
        }

        return new EligibilityOutcome(context.Limits, eligible, refused, counts, context);
    }

    /// <summary>The one gate that refused an exercise and could be met; null when none or several did, or it cannot be.</summary>
    public static Gate? OnlyGateOf(uint refusedBy) =>
        BitOperations.PopCount(refusedBy) == 1 && Gates[BitOperations.TrailingZeroCount(refusedBy)] is { CanBeMet: true } gate ? gate : null;
}
