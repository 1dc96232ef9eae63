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
    public override int Mark(GateContext context, uint[] refused, uint bit)
    {
        var (starts, sets, missing, count) = (context.Situation.Catalogue.EquipmentStart, context.Situation.Catalogue.EquipmentSets, ~context.Situation.EquipmentMask, 0);
        for (var e = 0; e < refused.Length; e++)
        {
            var i = starts[e];
            while (i < starts[e + 1] && (sets[i] & missing) != 0)
            {
                i++;
            }

            if (i == starts[e + 1])
            {
                refused[e] |= bit;
                count++;
            }
        }

        return count;
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
