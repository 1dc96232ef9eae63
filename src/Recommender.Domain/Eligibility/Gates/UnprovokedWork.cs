namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The exercise does nothing that a complaint is provoked by, and nothing that its stage still holds back.</summary>
public sealed class UnprovokedWork() : Gate("provocation")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Limits.HeldMask != 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) >= 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.ProvocationMasks, context.Limits.HeldMask, surely: false);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var kind = context.Limits.Held[Broken(context, position)];
        var catalogue = context.Situation.Catalogue;
        var region = catalogue.Vocabulary.Regions.InSentence(kind.Region);
        var why = kind.Rule.ProvokedBy is { } by && context.Situation.Complaints.Any(c => c.ProvokedBy.Contains(by))
            ? "were no longer provoked by it" : "were ready for it";
        return new Refusal(Reason, $"no {kind.Rule.Note}", kind.Rule.Note, $"the {region} {why}: {kind.Rule.Note}");
    }

    /// <summary>Index of the first kind that is held and that the exercise is; -1 when it is none.</summary>
    private static int Broken(GateContext context, int position)
    {
        var mask = context.Situation.Edition.ProvocationMasks[position] & context.Limits.HeldMask;
        if (mask == 0)
        {
            return -1;
        }

        var catalogue = context.Situation.Catalogue;
        var held = context.Limits.Held;
        for (var i = 0; i < held.Count; i++)
        {
            if ((mask & held[i].Bit) != 0 && catalogue.TissueHigh[(position * catalogue.RegionCount) + held[i].Region] >= held[i].LeastHundredths)
            {
                return i;
            }
        }

        return -1;
    }
}
