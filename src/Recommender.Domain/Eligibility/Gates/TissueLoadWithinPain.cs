namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The upper tissue load stays within the limit that pain puts on each sore region at this loading rate.</summary>
public sealed class TissueLoadWithinPain() : Gate("tissue-load")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Limits.Rows.Length > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => WorstRow(context, position, barred: false) >= 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit)
    {
        var (catalogue, rows, count) = (context.Situation.Catalogue, context.Limits.Rows, 0);
        var (highs, rates, width) = (catalogue.TissueHigh, catalogue.Rates, catalogue.RegionCount);
        for (var e = 0; e < refused.Length; e++)
        {
            foreach (var (region, hundredths) in rows)
            {
                if (highs[(e * width) + region] > hundredths[rates[e]] && !context.Limits.Barred.Contains(region))
                {
                    refused[e] |= bit;
                    count++;
                    break;
                }
            }
        }

        return count;
    }

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) => Explain(context, position, barred: false, Reason);

    /// <summary>Index of the row that is broken by most, among barred regions or among the others; -1 when none is.</summary>
    internal static int WorstRow(GateContext context, int position, bool barred)
    {
        var catalogue = context.Situation.Catalogue;
        var rate = catalogue.Rates[position];
        var rows = context.Limits.Rows;
        var worst = -1;
        var most = 0;
        for (var i = 0; i < rows.Length; i++)
        {
            var over = catalogue.TissueHigh[(position * catalogue.RegionCount) + rows[i].Region] - rows[i].Hundredths[rate];
            if (over > most && context.Limits.Barred.Contains(rows[i].Region) == barred)
            {
                (worst, most) = (i, over);
            }
        }

        return worst;
    }

    internal static Refusal Explain(GateContext context, int position, bool barred, string reason)
    {
        var catalogue = context.Situation.Catalogue;
        var (region, hundredths) = context.Limits.Rows[WorstRow(context, position, barred)];
        var limit = hundredths[catalogue.Rates[position]] / 100m;
        var value = catalogue.TissueHigh[(position * catalogue.RegionCount) + region] / 100m;
        var label = catalogue.Vocabulary.Regions.InSentence(region);
        var remedy = barred
            ? $"a clinician had examined the {label} and cleared it"
            : $"the {label} stood {value:0.##} at this speed of loading; today's limit is {limit:0.##}";
        return new Refusal(reason, limit, value, remedy);
    }
}
