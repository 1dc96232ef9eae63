namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The athlete has every competence the exercise asks for.</summary>
public sealed class CompetencePresent() : Gate("competence-missing")
{
    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Missing(context, position) != 0;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Catalogue.CompetenceMasks, ~context.Situation.CompetenceMask, surely: true);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var missing = Missing(context, position);
        var names = string.Join(", ", context.Situation.Catalogue.Vocabulary.Competences.Where((_, i) => (missing & (1UL << i)) != 0).Select(c => c.Id));
        return new Refusal(Reason, names, null, $"the athlete had been taught: {names}");
    }

    private static ulong Missing(GateContext context, int position) =>
        context.Situation.Catalogue.CompetenceMasks[position] & ~context.Situation.CompetenceMask;
}
