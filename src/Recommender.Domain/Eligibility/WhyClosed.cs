namespace Recommender.Domain.Eligibility;

/// <summary>What keeps exercises out, in words: a refusal with what would let it in.</summary>
/// <param name="context">What the gates are asked on.</param>
public sealed class WhyClosed(GateContext context)
{
    /// <summary>What keeps an exercise out, each as it stands within a sentence, without a full stop; empty when it is open.</summary>
    /// <param name="exercise">Exercise id; one that the catalogue does not hold is kept out by that.</param>
    public IReadOnlyList<string> Of(string exercise)
    {
        var catalogue = context.Situation.Catalogue;
        var position = catalogue.PositionOf(exercise);
        return position < 0 ? ["not in the catalogue"]
            : context.Limits.Referral?.Scope == "all" ? ["a clinician comes first"]
            : [.. EligibilityFilter.Gates.Where(g => g.Asks(context) && g.Refuses(context, position)).Select(g => g.Explain(context, position))
                .Select(r => $"{catalogue.Vocabulary.Reasons.InSentence(r.Reason)}: it would be allowed if {r.WouldBeAllowedIf.TrimEnd('.')}")];
    }
}
