namespace Recommender.Domain.Eligibility.Gates;

/// <summary>Training age is enough for the exercise's complexity.</summary>
public sealed class TrainingAgeEnough() : Gate("training-age")
{
    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => context.TooComplex[context.Situation.Catalogue.Complexities[position] - 1];

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit)
    {
        var (complexities, tooComplex, count) = (context.Situation.Catalogue.Complexities, context.TooComplex, 0);
        for (var e = 0; e < refused.Length; e++)
        {
            if (tooComplex[complexities[e] - 1])
            {
                refused[e] |= bit;
                count++;
            }
        }

        return count;
    }

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var years = Asked(context, position);
        return new Refusal(Reason, years, context.Situation.TrainingAgeYears, $"training age were at least {years:0.#} years");
    }

    private static decimal Asked(GateContext context, int position) =>
        context.Situation.Knowledge.Competence.TrainingAgeByComplexity[context.Situation.Catalogue.Complexities[position] - 1].Years;
}
