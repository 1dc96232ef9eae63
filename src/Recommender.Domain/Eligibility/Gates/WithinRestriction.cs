using System.Numerics;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The exercise stays inside what a clinician wrote: the limits of every restriction, and the frame of a clearance.</summary>
public sealed class WithinRestriction() : Gate("clinician-restriction")
{
    /// <inheritdoc/>
    public override bool CanBeMet => false;

    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Limits.Restricted.Length > 0 || context.Limits.ClearedMask != 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) =>
        (context.Situation.Edition.ClearanceMasks[position] & context.Limits.ClearedMask) != 0 || Broken(context, position) >= 0;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var catalogue = context.Situation.Catalogue;
        if (Broken(context, position) is var row and >= 0)
        {
            var (region, hundredths) = context.Limits.Restricted[row];
            var limit = hundredths[catalogue.Rates[position]] / 100m;
            var value = catalogue.TissueHigh[(position * catalogue.RegionCount) + region] / 100m;
            return new Refusal(Reason, limit, value, $"the clinician allowed the {catalogue.Vocabulary.Regions.InSentence(region)} {value:0.##} at this speed of loading; {limit:0.##} is written");
        }

        var left = BitOperations.TrailingZeroCount(context.Situation.Edition.ClearanceMasks[position] & context.Limits.ClearedMask);
        var clearances = context.Situation.Knowledge.Returning.Clearances;
        var at = 0;
        while (left >= clearances[at].Holds.Count)
        {
            left -= clearances[at++].Holds.Count;
        }

        var flag = catalogue.Vocabulary.RedFlags.InSentence(clearances[at].Flag);
        return new Refusal(Reason, "what the clearance leaves open", flag, $"the clinician wrote it into the clearance ({flag})");
    }

    /// <summary>Index of the first row that is broken; -1 when none is.</summary>
    private static int Broken(GateContext context, int position)
    {
        var catalogue = context.Situation.Catalogue;
        var rate = catalogue.Rates[position];
        var rows = context.Limits.Restricted;
        for (var i = 0; i < rows.Length; i++)
        {
            if (catalogue.TissueHigh[(position * catalogue.RegionCount) + rows[i].Region] > rows[i].Hundredths[rate])
            {
                return i;
            }
        }

        return -1;
    }
}
