using System.Numerics;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>One alternative of what the exercise needs is wholly at hand.</summary>
public sealed class EquipmentAtHand() : Gate("equipment-missing")
{
    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position)
    {
        var catalogue = context.Situation.Catalogue;
        var missing = ~context.Situation.EquipmentMask;
        for (var i = catalogue.EquipmentStart[position]; i < catalogue.EquipmentStart[position + 1]; i++)
        {
            if ((catalogue.EquipmentSets[i] & missing) == 0)
            {
                return false;
            }
        }

        return true;
    }

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var catalogue = context.Situation.Catalogue;
        var have = context.Situation.EquipmentMask;
        var sets = catalogue.EquipmentSets.AsSpan(catalogue.EquipmentStart[position], catalogue.EquipmentStart[position + 1] - catalogue.EquipmentStart[position]);
        var closest = sets[0];
        foreach (var set in sets)
        {
            if (BitOperations.PopCount(set & ~have) < BitOperations.PopCount(closest & ~have))
            {
                closest = set;
            }
        }

        var needed = Names(context, closest & ~have);
        return new Refusal(Reason, Names(context, closest), needed, $"there were also: {needed}");
    }

    private static string Names(GateContext context, ulong mask) =>
        string.Join(", ", context.Situation.Catalogue.Vocabulary.Equipment.Where((_, i) => (mask & (1UL << i)) != 0).Select(e => e.Id));
}
