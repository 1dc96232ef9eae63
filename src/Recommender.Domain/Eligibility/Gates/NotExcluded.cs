namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The coach did not exclude the exercise.</summary>
public sealed class NotExcluded() : Gate("coach-excluded")
{
    /// <inheritdoc/>
    public override bool CanBeMet => false;

    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Excluded.Count > 0;

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => context.Situation.Excluded.Contains(position);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position) => new(Reason, null, null, "the coach took it off the list of exclusions");
}
