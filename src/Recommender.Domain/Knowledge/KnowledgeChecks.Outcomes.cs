namespace Recommender.Domain.Knowledge;

/// <content>What is learned from outcomes.</content>
public sealed partial class KnowledgeChecks
{
    private const string TissueCost = "tissue-cost";

    private void Outcomes(OutcomeRules rules, IEnumerable<string> factors)
    {
        const string file = "rules/outcomes.json";
        var known = factors.ToHashSet(StringComparer.Ordinal);
        foreach (var factor in rules.Bounds.OnlyGrow.Where(f => !known.Contains(f)))
        {
            Fault(file, "/bounds/onlyGrow", $"\"{factor}\" is not a factor.");
        }

        // What spares tissue is never learned away, whatever the file says.
        if (!rules.Bounds.OnlyGrow.Contains(TissueCost, StringComparer.Ordinal))
        {
            Fault(file, "/bounds/onlyGrow", $"{TissueCost} is missing; it may never be learned away.");
        }

        if (rules.Pairs.LeastOfCoach < rules.Pairs.Least)
        {
            Fault(file, "/pairs/leastOfCoach", $"{rules.Pairs.LeastOfCoach} is less than the {rules.Pairs.Least} of the organisation; give as many or more.");
        }

        if (rules.Fit.LeastPointsPerUnit > rules.Fit.MostPointsPerUnit)
        {
            Fault(file, "/fit/leastPointsPerUnit", "the least is above the most.");
        }

        Sourced(file, "/caution", rules.Caution.Basis, rules.Caution.Source);
        Sourced(file, "/bounds", rules.Bounds.Basis, rules.Bounds.Source);
        Sourced(file, "/pairs", rules.Pairs.Basis, rules.Pairs.Source);
        Sourced(file, "/position", rules.Position.Basis, rules.Position.Source);
        Sourced(file, "/fit", rules.Fit.Basis, rules.Fit.Source);
        Sourced(file, "/publication", rules.Publication.Basis, rules.Publication.Source);
    }
}
