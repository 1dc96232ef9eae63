using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Eligibility.Gates;

/// <summary>The athlete is of an age, or long enough in training, for this kind of work.</summary>
public sealed class AgeSuitable() : Gate("age")
{
    /// <inheritdoc/>
    public override bool Asks(GateContext context) => AnyInForce(context);

    /// <inheritdoc/>
    public override bool Refuses(GateContext context, int position) => Broken(context, position) is not null;

    /// <inheritdoc/>
    public override int Mark(GateContext context, uint[] refused, uint bit) =>
        MarkSharing(context, refused, bit, context.Situation.Edition.AgeMasks, ulong.MaxValue, surely: false);

    /// <inheritdoc/>
    public override Refusal Explain(GateContext context, int position)
    {
        var rule = Broken(context, position)!;
        var makesUp = rule.UnlessTrainingAgeYears is { } years ? $", or had trained for {years:0.#} years" : "";
        var age = rule.BelowAge is { } below ? $"the athlete were {below}{(rule.InSpurt ? " and in no growth spurt" : "")}" : $"the athlete were under {rule.FromAge}";
        return new Refusal(Reason, rule.BelowAge ?? rule.FromAge, context.Situation.AgeYears, $"{age}{makesUp}: {rule.Note}");
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

    private static bool AnyInForce(GateContext context)
    {
        foreach (var rule in context.Situation.Knowledge.Competence.Ages)
        {
            if (InForce(context, rule))
            {
                return true;
            }
        }

        return false;
    }

    private static bool InForce(GateContext context, AgeRule rule) =>
        (context.Situation.AgeYears < rule.BelowAge || context.Situation.AgeYears >= rule.FromAge || (rule.InSpurt && context.Situation.InGrowthSpurt)) && !(context.Situation.TrainingAgeYears >= rule.UnlessTrainingAgeYears);
}
