using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Needs;

/// <summary>Arranges readings for a person: value, unit, formula, threshold and what is raised.</summary>
internal static class DerivedMeasures
{
    private static readonly Dictionary<string, decimal> NoAdds = [];

    /// <summary>Every derived reading, and every sent one that a threshold reads, in the order of the sheet.</summary>
    public static IReadOnlyList<DerivedMeasure> Of(MeasureIndex index, MeasureSheet sheet, List<Judgement> judgements, IReadOnlyList<SideJudgement> sides, IReadOnlyList<TestRaise> raises)
    {
        var shown = new List<DerivedMeasure>();
        foreach (var reading in sheet.Readings)
        {
            var met = judgements.Where(j => ReferenceEquals(j.Reading, reading)).Select(j => Met(j, judgements, raises))
                .Concat(sides.Where(s => ReferenceEquals(s.Shown, reading)).Select(s => Met(s, raises))).ToList();
            if (!reading.Derived && met.Count == 0)
            {
                continue;
            }

            var definition = reading.Derived ? index.Derived(reading.Measure) : null;
            var label = definition?.Label ?? index.Test(reading.Measure)!.Label;
            var telling = Telling(met, reading.Value);
            shown.Add(new DerivedMeasure(reading.Measure, reading.Detail is null ? label : $"{label}: {reading.Detail}", reading.Value, index.UnitOf(reading.Measure), reading.Side,
                definition?.Formula ?? "as measured", definition?.Source, telling, telling is null ? [] : [.. telling.Adds.Keys]));
        }

        return shown;
    }

    /// <summary>The threshold that says most: the worst verdict, of equal ones the nearest bound; with what all that are met add.</summary>
    private static ThresholdMet? Telling(List<ThresholdMet> met, decimal value)
    {
        var telling = met.OrderByDescending(m => m.Verdict).ThenBy(m => Math.Abs(m.Bound - value)).FirstOrDefault();
        return telling is null || met.Count == 1 ? telling
            : telling with { Adds = met.SelectMany(m => m.Adds).GroupBy(a => a.Key, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Sum(a => a.Value), StringComparer.Ordinal) };
    }

    private static ThresholdMet Met(Judgement judgement, List<Judgement> all, IReadOnlyList<TestRaise> raises)
    {
        var threshold = judgement.Threshold;
        var together = ThresholdJudge.Together(all.Where(j => j.Threshold == threshold && j.Reading.Side == judgement.Reading.Side));
        var (verdict, adds) = Settled(together, threshold.Id, raises);
        return new ThresholdMet(threshold.Id, threshold.Below is not null ? "below" : "above", judgement.Bound, threshold.MeasurementError, verdict, threshold.Note, adds, threshold.Basis, threshold.Source);
    }

    private static ThresholdMet Met(SideJudgement side, IReadOnlyList<TestRaise> raises)
    {
        var rule = side.Rule;
        var (verdict, adds) = Settled(side.Verdict, rule.Id, raises);
        return rule.Kind == "percent"
            ? new ThresholdMet(rule.Id, "below", 100 - rule.Bound, rule.MeasurementError, verdict, rule.Note, adds, rule.Basis, rule.Source)
            : new ThresholdMet(rule.Id, "above", rule.Bound, rule.MeasurementError, verdict, rule.Note, adds, rule.Basis, rule.Source);
    }

    /// <summary>What a rule adds; a need that may add nothing, as from a single trial, cannot be told.</summary>
    private static (ThresholdVerdict Verdict, IReadOnlyDictionary<string, decimal> Adds) Settled(ThresholdVerdict verdict, string rule, IReadOnlyList<TestRaise> raises)
    {
        if (verdict != ThresholdVerdict.Need)
        {
            return (verdict, NoAdds);
        }

        var adds = raises.Where(r => r.Rule == rule).ToDictionary(r => r.Quality, r => decimal.Round(r.Weight, 4), StringComparer.Ordinal);
        return adds.Count == 0 ? (ThresholdVerdict.CannotTell, NoAdds) : (verdict, adds);
    }
}
