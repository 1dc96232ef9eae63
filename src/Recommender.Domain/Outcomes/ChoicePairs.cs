using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Outcomes;

/// <summary>A report that counts, as far as a choice is learned from it.</summary>
/// <param name="DecisionId">Decision; ids ascend with time.</param>
/// <param name="Coach">Coach of the decision, or null.</param>
/// <param name="Verdict">Verdict id.</param>
/// <param name="Facts">What it is learned from.</param>
public sealed record LearnedOutcome(string DecisionId, string? Coach, string Verdict, OutcomeFacts Facts);

/// <summary>One exercise was taken over another, both open in the decision.</summary>
/// <param name="DecisionId">Decision.</param>
/// <param name="Coach">Coach of the decision, or null.</param>
/// <param name="Taken">What was taken.</param>
/// <param name="Left">What was left.</param>
/// <param name="Weight">Above 0; more where what was taken stood where fewer look, less where one decision makes many pairs.</param>
public sealed record ChoicePair(string DecisionId, string? Coach, ChoiceFacts Taken, ChoiceFacts Left, decimal Weight);

/// <summary>Turns what coaches did into pairs: used over declined in the same answer, replacement over replaced, only among what passed every gate.</summary>
public static class ChoicePairs
{
    /// <summary>Where the order is no order of points, the place says nothing of who is looked at.</summary>
    private const string OrderedByPoints = "recommendation";
    private const string OrderedByLikeness = "substitution";

    /// <summary>The pairs of a decision.</summary>
    /// <param name="outcomes">Reports that count, all of one decision, each pick once.</param>
    /// <param name="rule">How likely a place is looked at.</param>
    /// <returns>In the order of what was taken, then of what was left.</returns>
    public static IReadOnlyList<ChoicePair> Of(IReadOnlyList<LearnedOutcome> outcomes, PositionRule rule)
    {
        var pairs = new List<ChoicePair>();
        foreach (var outcome in outcomes.Where(o => o.Facts.Kind != OrderedByLikeness && o.Facts.Picked.IsOpen))
        {
            if (outcome is { Verdict: Verdicts.Swapped, Facts.Instead: { IsOpen: true } instead })
            {
                Add(outcome, instead, outcome.Facts.Picked);
            }
            else if (outcome.Verdict == Verdicts.Used)
            {
                foreach (var declined in outcomes.Where(o => o.Verdict == Verdicts.Declined && o.Facts.Picked.IsOpen))
                {
                    Add(outcome, outcome.Facts.Picked, declined.Facts.Picked);
                }
            }
        }

        // Six exercises can be told apart by five comparisons, however many pairs they make: one more pair among the same is no more evidence.
        var apart = pairs.SelectMany(p => new[] { p.Taken.Exercise, p.Left.Exercise }).Distinct(StringComparer.Ordinal).Count() - 1;
        return pairs.Count <= apart ? pairs : [.. pairs.Select(p => p with { Weight = decimal.Round(p.Weight * apart / pairs.Count, 6) })];

        void Add(LearnedOutcome of, ChoiceFacts taken, ChoiceFacts left) =>
            pairs.Add(new ChoicePair(of.DecisionId, of.Coach, taken, left, of.Facts.Kind == OrderedByPoints ? WeightOf(taken.Place, rule) : 1));
    }

    /// <summary>One over how likely a place is looked at: place ^ exponent, cut off; what was no pick was found unasked and weighs most. Source: joachims-2017.</summary>
    /// <param name="place">1 for the first; 0 for none.</param>
    /// <param name="rule">The rule.</param>
    public static decimal WeightOf(int place, PositionRule rule) =>
        place <= 0 ? rule.MostWeight : Math.Min(rule.MostWeight, decimal.Round((decimal)Math.Pow(place, (double)rule.Exponent), 4));
}
