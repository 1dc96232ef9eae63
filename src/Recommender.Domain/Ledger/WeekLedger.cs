using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Ledger;

/// <summary>What the last days laid on each tissue: work that was done, and training on the track.</summary>
public static class WeekLedger
{
    /// <summary>Recent work of the last seven days, today included.</summary>
    public static LedgerSheet Work(Situation situation) =>
        Work(situation, daysAgo => daysAgo < situation.Knowledge.Ledger.Days ? 1 : 0);

    /// <summary>Recent work, each day by its share.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="share">Days ago to the share that counts.</param>
    public static LedgerSheet Work(Situation situation, Func<int, decimal> share)
    {
        var sheet = new LedgerSheet(situation.Catalogue.RegionCount);
        var ledger = new TissueLedger(situation.Catalogue, situation.Knowledge);
        foreach (var work in situation.Request.Recent ?? [])
        {
            if (share(work.DaysAgo!.Value) is > 0 and var counted)
            {
                var unit = work.Unit is { } id ? (DoseUnit)situation.Catalogue.Vocabulary.DoseUnits.IndexOf(id) : (DoseUnit?)null;
                ledger.Add(sheet, situation.Catalogue.PositionOf(work.Exercise!), work.Sets, work.Amount, unit, counted);
            }
        }

        return sheet;
    }

    /// <summary>Training of the last seven days, today's included.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="weeksBack">0 for these seven days, 1 for the seven before.</param>
    public static LedgerSheet Training(Situation situation, int weeksBack = 0)
    {
        var sheet = new LedgerSheet(situation.Catalogue.RegionCount);
        var days = situation.Knowledge.Ledger.Days;
        foreach (var day in situation.Request.Training ?? [])
        {
            if (day.DaysFromToday <= 0 && -day.DaysFromToday / days == weeksBack)
            {
                Add(sheet, situation, day);
            }
        }

        return sheet;
    }

    /// <summary>Adds one day's training.</summary>
    public static void Add(LedgerSheet sheet, Situation situation, TrainingDay day)
    {
        var rules = situation.Knowledge.Ledger;
        var load = rules.Training.First(t => t.Kind == day.Kind);
        if (load.AsKind is { } kinds)
        {
            load = rules.Training.First(t => t.Kind == kinds[situation.EventGroup]);
        }

        if (load.Measures.Count == 0)
        {
            return;
        }

        var measure = load.Measures.FirstOrDefault(m => Said(day, m.Measure) is not null) ?? load.Measures[0];
        var effort = day.Effort is { } said ? rules.Effort.AtZero + ((1 - rules.Effort.AtZero) * said / 10) : 1;
        var loadings = (Said(day, measure.Measure) ?? measure.Usual) * measure.LoadingsPerUnit;
        var like = measure.LikeByEvent?.GetValueOrDefault(situation.Event) ?? measure.Like;
        var position = situation.Catalogue.PositionOf(like);
        var ledger = new TissueLedger(situation.Catalogue, situation.Knowledge);
        var side = SideOf(situation, measure);
        var sided = measure.SidedRegions.Select(situation.Catalogue.Vocabulary.Regions.IndexOf).ToHashSet();
        var (left, right) = side switch { Side.Left => (loadings, 0m), Side.Right => (0m, loadings), _ => (loadings, loadings) };
        ledger.Add(sheet, position, left, right, effort, region => sided.Count == 0 || sided.Contains(region));
        if (sided.Count > 0)
        {
            ledger.Add(sheet, position, loadings, loadings, effort, region => !sided.Contains(region));
        }
    }

    private static decimal? Said(TrainingDay day, string measure) => measure switch
    {
        "minutes" => day.Minutes,
        "contacts" => day.Contacts,
        _ => day.Throws,
    };

    /// <summary>The side that bears it; both where the athlete's is not known, which is the safer reading.</summary>
    private static Side SideOf(Situation situation, TrainingMeasure measure)
    {
        var athlete = situation.Request.Athlete!;
        var said = measure.Side switch { "take-off" => athlete.TakeOffLeg, "throwing" => athlete.ThrowingSide, _ => null };
        return said switch { "left" => Side.Left, "right" => Side.Right, _ => Side.Both };
    }
}
