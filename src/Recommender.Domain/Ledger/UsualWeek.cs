using Recommender.Domain.Requests;

namespace Recommender.Domain.Ledger;

/// <summary>What an athlete's usual week laid on each tissue, and how these seven days stand to it. Never what a tissue can stand.</summary>
/// <param name="Weeks">Weeks of exercises that it is the mean of.</param>
/// <param name="Totals">Region id to loadings x load by side.</param>
/// <param name="Share">Region id to these seven days with the session, as a share of it; regions that the usual week does not load are left out.</param>
/// <param name="Note">How to read it.</param>
public sealed record UsualWeek(int Weeks, IReadOnlyDictionary<string, SideTotal> Totals, IReadOnlyDictionary<string, SideShare> Share, string Note)
{
    /// <summary>The usual week of an athlete; null where too little was told.</summary>
    /// <param name="situation">Its <c>recent</c> and <c>training</c> reach back before these seven days, or nothing is known.</param>
    /// <param name="now">These seven days with the session.</param>
    /// <remarks>Training of these days without any in the week before would make every share too large, so then nothing is told.</remarks>
    public static UsualWeek? Of(Situation situation, LedgerSheet now)
    {
        if (situation.Knowledge.Ledger.UsualWeek is not { } rule)
        {
            return null;
        }

        var days = situation.Knowledge.Ledger.Days;
        var weeks = Enumerable.Range(1, rule.Weeks).Where(w => situation.Request.Recent?.Any(r => r.DaysAgo!.Value / days == w) == true).ToHashSet();
        var before = WeekLedger.Training(situation, weeksBack: 1);
        if (weeks.Count == 0 || (Loads(WeekLedger.Training(situation), situation) && !Loads(before, situation)))
        {
            return null;
        }

        var usual = WeekLedger.Work(situation, daysAgo => weeks.Contains(daysAgo / days) ? 1m / weeks.Count : 0);
        usual.Add(before);
        var regions = situation.Catalogue.Vocabulary.Regions;
        var share = new OrderedDictionary<string, SideShare>(StringComparer.Ordinal);
        for (var region = 0; region < regions.Count; region++)
        {
            if (usual.Left(region) > 0 || usual.Right(region) > 0)
            {
                share[regions[region].Id] = new SideShare(ShareOf(now.Left(region), usual.Left(region)), ShareOf(now.Right(region), usual.Right(region)));
            }
        }

        return new UsualWeek(weeks.Count, usual.Totals(situation.Catalogue.Vocabulary), share, rule.Note);
    }

    private static bool Loads(LedgerSheet sheet, Situation situation) => sheet.Totals(situation.Catalogue.Vocabulary).Count > 0;

    private static decimal? ShareOf(long now, long usual) => usual == 0 ? null : decimal.Round(now / (decimal)usual, 2);
}

/// <summary>These seven days as a share of the usual week, by side; 1 is as usual, two decimals.</summary>
/// <param name="Left">Left; null where the usual week does not load it.</param>
/// <param name="Right">Right; null where the usual week does not load it.</param>
public sealed record SideShare(decimal? Left, decimal? Right);
