namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The smallest dose worth doing fits the minutes at hand.</summary>
public sealed class FitsMinutes() : Gate("minutes")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Minutes is not null;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Needed(context, position) > context.Situation.Minutes;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var needed = Needed(context, position);
        return new Refusal(Reason, context.Situation.Minutes, needed, $"there were {needed:0.#} minutes");
    }

    private static decimal Needed(GateContext context, int position)
    {
        var situation = context.Situation;
        var exercise = situation.Catalogue.Exercises[position];
        var purpose = context.Needs.PurposeOf(situation.Catalogue, position);
        var row = situation.Knowledge.Dose.RowFor(exercise, situation.Catalogue.Vocabulary.Qualities[purpose].Id, context.Dose);
        return row.Minutes(exercise, situation.Phase, Math.Min(row.MinSets, row.Sets[(int)situation.Phase]));
    }
}
