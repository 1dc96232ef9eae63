using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The family was not trained so lately that this work should wait.</summary>
public sealed class RecoveredSinceLast() : Gate("recent-session")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.LastDone.Count > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position, out _) is not null;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.RecoveryMasks, ulong.MaxValue, surely: false);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var window = Broken(context, position, out var daysAgo)!;
        return new Refusal(Reason, window.DaysBelow, daysAgo, $"{window.DaysBelow} days or more had passed: {window.Note}");
    }

    private static RecoveryWindow? Broken(GateContext context, int position, out int daysAgo)
    {
        daysAgo = int.MaxValue;
        var mask = context.Situation.Edition.RecoveryMasks[position];
        if (mask == 0)
        {
            return null;
        }

        var families = context.Situation.Catalogue.Families;
        foreach (var done in context.Situation.LastDone)
        {
            if (families[done.Position] == families[position])
            {
                daysAgo = Math.Min(daysAgo, done.DaysAgo);
            }
        }

        var windows = context.Situation.Knowledge.Peaking.Recovery;
        for (var i = 0; i < windows.Count; i++)
        {
            if ((mask & (1UL << i)) != 0 && daysAgo < windows[i].DaysBelow)
            {
                return windows[i];
            }
        }

        return null;
    }
}
