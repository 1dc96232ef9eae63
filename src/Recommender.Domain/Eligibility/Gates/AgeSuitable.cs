using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The athlete is old enough, or long enough in training, for this kind of work.</summary>
public sealed class AgeSuitable() : Gate("age")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => context.Situation.Knowledge.Competence.Ages.Any(r => InForce(context, r));

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) is not null;

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var rule = Broken(context, position)!;
        var makesUp = rule.UnlessTrainingAgeYears is { } years ? $", or had trained for {years:0.#} years" : "";
        return new Refusal(Reason, rule.BelowAge, context.Situation.AgeYears, $"the athlete were {rule.BelowAge}{makesUp}: {rule.Note}");
    }

    private static AgeRule? Broken(GateContext context, int position)
    {
        var mask = context.Situation.Edition.AgeMasks[position];
        if (mask == 0)
        {
            return null;
        }

        var rules = context.Situation.Knowledge.Competence.Ages;
        for (var i = 0; i < rules.Count; i++)
        {
            if ((mask & (1UL << i)) != 0 && InForce(context, rules[i]))
            {
                return rules[i];
            }
        }

        return null;
    }

    private static bool InForce(GateContext context, AgeRule rule) =>
        context.Situation.AgeYears < rule.BelowAge && !(context.Situation.TrainingAgeYears >= rule.UnlessTrainingAgeYears);
}
