using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>A difference between the sides, and what became of it.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Shown">The difference as a derived measure; its side is the weaker one.</param>
/// <param name="Verdict">Need where it is borne out and no habit of the event.</param>
internal sealed record SideJudgement(SideRule Rule, MeasureReading Shown, ThresholdVerdict Verdict);

/// <summary>Differences between the sides: beyond bound and error, in several tests of a group in the same direction, and not the event's habit.</summary>
internal static class SideJudge
{
    /// <summary>Shows every difference on the sheet and judges it.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="sheet">Readings; the differences are added to it.</param>
    /// <param name="weaker">Sides that are weaker, in the order of the groups.</param>
    public static IReadOnlyList<SideJudgement> All(Situation situation, MeasureSheet sheet, List<WeakerSide> weaker)
    {
        var rules = situation.Knowledge.Tests.Sides;
        var found = new List<(SideRule Rule, MeasureReading Shown, bool Beyond)>();
        foreach (var rule in rules.Rules)
        {
            if (Found(sheet, rule) is { } difference)
            {
                found.Add(difference);
            }
        }

        var judged = new List<SideJudgement>(found.Count);
        if (found.Count == 0)
        {
            return judged;
        }

        foreach (var group in rules.Groups)
        {
            var own = found.Where(f => f.Rule.Group == group.Id).ToList();
            var beyond = own.Where(f => f.Beyond).ToList();
            var verdict = beyond.Count == 0 ? ThresholdVerdict.NoNeed : Judge(situation, sheet, group, [.. beyond.Select(f => (f.Rule, f.Shown.Side!.Value))], weaker);
            judged.AddRange(own.Select(f => new SideJudgement(f.Rule, f.Shown, f.Beyond ? verdict : ThresholdVerdict.NoNeed)));
        }

        return judged;
    }

    private static (SideRule Rule, MeasureReading Shown, bool Beyond)? Found(MeasureSheet sheet, SideRule rule)
    {
        if (sheet.Find(rule.Of, Side.Left) is not { } left || sheet.Find(rule.Of, Side.Right) is not { } right || (left.Value <= 0 && right.Value <= 0))
        {
            return null;
        }

        var percent = rule.Kind == "percent";
        var value = percent ? Measures.LimbSymmetry.Index(left.Value, right.Value) : Measures.LimbSymmetry.Difference(left.Value, right.Value);
        Side? weaker = left.Value == right.Value ? null : left.Value < right.Value ? Side.Left : Side.Right;
        sheet.Derive(rule.Measure, value, weaker, null, [.. left.From]);
        var shown = sheet.Find(rule.Measure, weaker);
        var difference = percent ? 100 - shown?.Value : shown?.Value;
        return shown is null ? null : (rule, shown, weaker is not null && difference > rule.Bound && difference > rule.MeasurementError);
    }

    private static ThresholdVerdict Judge(Situation situation, MeasureSheet sheet, SideGroup group, List<(SideRule Rule, Side Weaker)> beyond, List<WeakerSide> sides)
    {
        var rules = situation.Knowledge.Tests.Sides;
        var weaker = beyond[0].Weaker;
        var name = $"{(weaker == Side.Left ? "left" : "right")} {group.Label}";
        if (beyond.Any(b => b.Weaker != weaker))
        {
            sheet.Caution($"{group.Label[..1].ToUpperInvariant()}{group.Label[1..]}: tests disagree about which side is {group.Lower}, so no side is given more work.");
            return ThresholdVerdict.CannotTell;
        }

        if (beyond.Count < rules.LeastTests.Value)
        {
            sheet.Caution($"Only one test ({beyond[0].Rule.Of}) shows the {name} as {group.Lower}: it counts when a second test of it says the same.");
            return ThresholdVerdict.CannotTell;
        }

        foreach (var habit in rules.Habits.Where(h => h.Limb == group.Limb && h.Events.Contains(situation.Event, StringComparer.Ordinal)))
        {
            if (Stronger(habit.Stronger, situation.Request.Athlete!) is not { } stronger)
            {
                if (habit.Ask)
                {
                    sheet.Caution($"The {name} tests {group.Lower}, which may be the habit of the event ({habit.Note}): send athlete.{FactOf(habit.Stronger)} to tell.");
                    return ThresholdVerdict.CannotTell;
                }
            }
            else if (stronger != weaker)
            {
                sheet.Caution($"The {name} tests {group.Lower}; that is the habit of the event ({habit.Note}), so no side is given more work.");
                return ThresholdVerdict.NoNeed;
            }
        }

        var sore = situation.Complaints.Any(c => (c.Side == Side.Both || c.Side == weaker) && c.Stands.Any(s => group.Regions.Contains(s.Region.Id, StringComparer.Ordinal)));
        var note = sore
            ? $"The {name} tests {group.Lower} in {beyond.Count} tests, and it is sore: the complaint's programme comes first, so no extra set."
            : $"The {name} tests {group.Lower} in {beyond.Count} tests: at most {Sets(rules.ExtraSets.Value)} on the {name}.";
        sides.Add(new WeakerSide(weaker, group.Limb, [.. beyond.Select(b => b.Rule.Of)],
            [.. beyond.SelectMany(b => b.Rule.Raises.Keys).Distinct(StringComparer.Ordinal)], group.Regions, sore ? 0 : (int)rules.ExtraSets.Value, note));
        return ThresholdVerdict.Need;
    }

    private static string Sets(decimal count) => count == 1 ? "one extra set" : $"{MeasureSheet.Text(count)} extra sets";

    private static Side? Stronger(string which, AthleteFacts athlete) => which switch
    {
        "left" => Side.Left,
        "right" => Side.Right,
        "take-off-leg" => Of(athlete.TakeOffLeg),
        "opposite-take-off-leg" => Other(Of(athlete.TakeOffLeg)),
        "opposite-lead-leg" => Other(Of(athlete.LeadLeg)),
        "throwing-side" => Of(athlete.ThrowingSide),
        "opposite-throwing-side" => Other(Of(athlete.ThrowingSide)),
        _ => Of(athlete.StartFrontFoot),
    };

    private static string FactOf(string which) => which switch
    {
        "take-off-leg" or "opposite-take-off-leg" => "takeOffLeg",
        "opposite-lead-leg" => "leadLeg",
        "start-front-foot" => "startFrontFoot",
        _ => "throwingSide",
    };

    private static Side? Of(string? word) => word switch
    {
        "left" => Side.Left,
        "right" => Side.Right,
        _ => null,
    };

    private static Side? Other(Side? side) => side switch
    {
        Side.Left => Side.Right,
        Side.Right => Side.Left,
        _ => null,
    };
}
