namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The smallest dose worth doing fits the minutes at hand.</summary>
public sealed class FitsMinutes() : Gate("minutes")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Minutes is not null;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => LeastTenths(context, position) > context.WholeTenths;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var situation = context.Situation;
        var row = situation.Edition.DoseTable.RowFor(position, context.Needs.PurposeOf(situation.Catalogue, position), situation.DoseRows);
        var needed = row.Minutes(situation.Catalogue.Exercises[position], situation.Phase, row.LeastSets(situation.Phase));
        return new Refusal(Reason, context.Situation.Minutes, needed, $"there were {needed:0.#} minutes");
    }

    private static int LeastTenths(GateContext context, int position)
    {
        var situation = context.Situation;
        return situation.Edition.DoseTable.LeastTenths(position, context.Needs.PurposeOf(situation.Catalogue, position), situation.DoseRows, situation.Phase);
    }
}
