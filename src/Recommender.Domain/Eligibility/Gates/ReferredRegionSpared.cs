namespace Recommender.Domain.Eligibility.Gates;

/// <summary>A region that was referred to a clinician sees no more than the spared load.</summary>
public sealed class ReferredRegionSpared() : Gate("red-flag-spared")
{
    /// <inheritdoc/>
    public override bool CanBeMet => false;

    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Limits.Barred.Count > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => TissueLoadWithinPain.WorstRow(context, position, barred: true) >= 0;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) => TissueLoadWithinPain.Explain(context, position, barred: true, Reason);
}
