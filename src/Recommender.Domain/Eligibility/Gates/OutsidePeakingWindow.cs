using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The competition is far enough for this kind of work, or the athlete is used to it.</summary>
public sealed class OutsidePeakingWindow() : Gate("peaking-window")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => AnyInForce(context);

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) is not null;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.PeakingMasks, ulong.MaxValue, surely: false);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var window = Broken(context, position)!;
        var familiar = window.UnlessDoneWithinDays is { } days ? $", or had it been done in the last {days} days" : "";
        return new Refusal(Reason, window.WeeksBelow, context.Situation.WeeksToCompetition,
            $"{window.WeeksBelow:0.#} weeks or more were left{familiar}: {window.Note}");
    }

    /// <summary>The window that refuses an exercise, the first of the rules; null when none does.</summary>
    public static PeakingWindow? Broken(GateContext context, int position)
    {
        var mask = context.Situation.Edition.PeakingMasks[position];
        if (mask == 0)
        {
            return null;
        }

        var windows = context.Situation.Knowledge.Peaking.Windows;
        for (var i = 0; i < windows.Count; i++)
        {
            if ((mask & (1UL << i)) != 0 && InForce(context, windows[i]) && !Familiar(context, windows[i], position))
            {
                return windows[i];
            }
        }

        return null;
    }

    private static bool AnyInForce(GateContext context)
    {
        foreach (var window in context.Situation.Knowledge.Peaking.Windows)
        {
            if (InForce(context, window))
            {
                return true;
            }
        }

        return false;
    }

    private static bool InForce(GateContext context, PeakingWindow window) =>
        context.Situation.WeeksToCompetition < window.WeeksBelow
        && (window.EventGroups is null || window.EventGroups.Contains(context.Situation.EventGroup, StringComparer.Ordinal));

    private static bool Familiar(GateContext context, PeakingWindow window, int position)
    {
        foreach (var done in context.Situation.LastDone)
        {
            if (done.Position == position)
            {
                return done.DaysAgo <= window.UnlessDoneWithinDays;
            }
        }

        return false;
    }
}
