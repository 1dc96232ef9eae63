
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>Keeps heavy, lengthening and sore-making work away from hard, testing and competition days.</summary>
public sealed class HardDayKeptFree() : Gate("hard-day-near")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Calendar.Protections != 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) != 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.WeekMasks, context.Situation.Calendar.Protections, surely: true);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var rule = Asking(context, position)!;
        var day = context.Situation.Calendar.DayOf(rule);
        var when = day.InDays switch { 0 => "today", 1 => "tomorrow", _ => $"in {day.InDays} days" };
        return new Refusal(Reason, rule.DaysBelow, day.InDays, $"{day.Kind.Label} ({when}) were {rule.DaysBelow} {(rule.DaysBelow == 1 ? "day" : "days")} or more away: {rule.Note}");
    }

    /// <summary>The rule that asks for most days of those that refuse an exercise: the one that has to be met; null when none refuses it.</summary>
    public static ProtectedDay? Asking(GateContext context, int position)
    {
        var rules = context.Situation.Knowledge.Week.Protections;
        return Enumerable.Range(0, rules.Count).Where(i => (Broken(context, position) & (1UL << i)) != 0).Select(i => rules[i]).MaxBy(r => r.DaysBelow);
    }

    private static ulong Broken(GateContext context, int position) => context.Situation.Edition.WeekMasks[position] & context.Situation.Calendar.Protections;
}
