using Recommender.Domain.Requests;

namespace Recommender.Domain.Dosing;

/// <summary>Sets after the kind of week and of session and time off have taken their share.</summary>
internal static class Volume
{
    /// <summary>Sets, at least 1.</summary>
    /// <remarks>Shares multiply; what lies half-way between two counts goes to the smaller.</remarks>
    public static int Sets(Situation situation, int usual, ref List<DoseAdjustment>? changes)
    {
        var share = 1m;
        if (situation.WeekKind is { } week)
        {
            share *= week.SetsShare;
            DoseCalculator.Say(ref changes, $"week-{week.Id}", week.Note, week.Basis, week.Source);
        }

        if (situation.Slot is { } slot)
        {
            share *= slot.SetsShare;
            if (slot.SetsShare < 1)
            {
                DoseCalculator.Say(ref changes, $"slot-{slot.Id}", slot.Note, slot.Basis, slot.Source);
            }
        }

        if (situation.Layoff is { } layoff)
        {
            share *= layoff.VolumeShare;
            DoseCalculator.Say(ref changes, "layoff", layoff.Note + (layoff.NoFailure ? " No set goes to failure until then." : ""), layoff.Basis, layoff.Source);
        }

        return share == 1 ? usual : (int)Math.Max(1, decimal.Ceiling((usual * share) - 0.5m));
    }
}
