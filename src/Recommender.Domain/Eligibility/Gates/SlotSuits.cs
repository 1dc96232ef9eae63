using System.Numerics;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>Keeps out what does not suit the kind of session: before track work, on a recovery, travel or competition day, and in the first week back after time off.</summary>
public sealed class SlotSuits() : Gate("slot-unsuitable")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => (context.Situation.SlotBit | context.Situation.LayoffBits) != 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => ForSlot(context, position) || ForLayoff(context, position) != 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) => context.Situation.LayoffBits != 0
        ? base.Mark(context, refused, bit)
        : MarkSharing(context, refused, bit, context.Situation.Edition.SlotMasks, context.Situation.SlotBit, surely: true);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        if (ForSlot(context, position))
        {
            var slot = context.Situation.Slot!;
            return new Refusal(Reason, null, slot.Id, $"it stood in another kind of session: {slot.Note}");
        }

        var hold = context.Situation.Knowledge.Returning.LayoffHolds![BitOperations.TrailingZeroCount(ForLayoff(context, position))];
        return new Refusal(Reason, null, hold.Id, $"a week of training had led back to it: {hold.Note}");
    }

    private static bool ForSlot(GateContext context, int position) => (context.Situation.Edition.SlotMasks[position] & context.Situation.SlotBit) != 0;

    /// <summary>Bits of the holds after time off that refuse an exercise.</summary>
    private static ulong ForLayoff(GateContext context, int position) => context.Situation.Edition.LayoffMasks[position] & context.Situation.LayoffBits;
}
