using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The same work, by family or by kind, was not done so lately that this should wait.</summary>
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

        var windows = context.Situation.Knowledge.Peaking.Recovery;
        for (var i = 0; i < windows.Count; i++)
        {
            if ((mask & (1UL << i)) != 0 && Last(context.Situation, position, i) is var last && last < windows[i].DaysBelow)
            {
                daysAgo = last;
                return windows[i];
            }
        }

        return null;
    }

    /// <summary>Days since what the window holds for the same was done.</summary>
    private static int Last(Situation situation, int position, int window)
    {
        var (families, shared, days) = (situation.Catalogue.Families, situation.Edition.RecoveryShared[window], int.MaxValue);
        foreach (var done in situation.LastDone)
        {
            if (families[done.Position] == families[position] || (situation.Edition.RecoveryMasks[done.Position] & shared) != 0)
            {
                days = Math.Min(days, done.DaysAgo);
            }
        }

        return days;
    }
}
