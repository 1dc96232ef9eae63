namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The exercise is of a kind the request asks for.</summary>
public sealed class AskedFor() : Gate("not-asked-for")
{
    /// <inheritdoc/>
    public override bool CanBeMet => false;

    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Only is not null;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => !context.Situation.Only!.Holds(context.Situation.Catalogue, position);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) => new(Reason, null, null, "the request did not ask for other kinds only");
}
