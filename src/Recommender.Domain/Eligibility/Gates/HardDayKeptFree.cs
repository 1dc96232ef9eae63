
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
        // The rule that asks for most days is the one that has to be met.
        var rules = context.Situation.Knowledge.Week.Protections;
        var rule = Enumerable.Range(0, rules.Count).Where(i => (Broken(context, position) & (1UL << i)) != 0).Select(i => rules[i]).MaxBy(r => r.DaysBelow)!;
        var day = context.Situation.Calendar.DayOf(rule);
        var when = day.InDays switch { 0 => "today", 1 => "tomorrow", _ => $"in {day.InDays} days" };
        return new Refusal(Reason, rule.DaysBelow, day.InDays, $"{day.Kind.Label} ({when}) were {rule.DaysBelow} {(rule.DaysBelow == 1 ? "day" : "days")} or more away: {rule.Note}");
    }

    private static ulong Broken(GateContext context, int position) => context.Situation.Edition.WeekMasks[position] & context.Situation.Calendar.Protections;
}
