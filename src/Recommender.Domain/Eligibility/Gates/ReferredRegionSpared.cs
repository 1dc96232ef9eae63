using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>A region that was referred to a clinician sees no more than the spared load; while bone may be hurt nothing lands, on either leg.</summary>
public sealed class ReferredRegionSpared() : Gate("red-flag-spared")
{
    /// <inheritdoc/>
    public override bool CanBeMet => false;

    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Limits.Barred.Count > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) =>
        Lands(context, position) || TissueLoadWithinPain.WorstRow(context, position, barred: true) >= 0;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) =>
        TissueLoadWithinPain.WorstRow(context, position, barred: true) >= 0
            ? TissueLoadWithinPain.Explain(context, position, barred: true, Reason)
            : new Refusal(Reason, "no landings", "landings", "a clinician had ruled out that bone is hurt");

    private static bool Lands(GateContext context, int position) =>
        context.Limits.NoImpact && context.Situation.Catalogue.Rates[position] == (byte)LoadingRate.Impact;
}
