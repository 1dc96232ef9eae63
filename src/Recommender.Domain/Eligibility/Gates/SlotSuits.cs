namespace Recommender.Domain.Eligibility.Gates;

/// <summary>Keeps out what does not suit the kind of session: before track work, on a recovery, travel or competition day.</summary>
public sealed class SlotSuits() : Gate("slot-unsuitable")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.SlotBit != 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => (context.Situation.Edition.SlotMasks[position] & context.Situation.SlotBit) != 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.SlotMasks, context.Situation.SlotBit, surely: true);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var slot = context.Situation.Slot!;
        return new Refusal(Reason, null, slot.Id, $"it stood in another kind of session: {slot.Note}");
    }
}
