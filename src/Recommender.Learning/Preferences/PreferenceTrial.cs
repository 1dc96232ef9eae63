using Recommender.Answers.Learned;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Scoring;

namespace Recommender.Learning.Preferences;

/// <summary>A decision with what was reported of it.</summary>
/// <param name="Id">Decision id.</param>
/// <param name="Coach">Coach, or null.</param>
/// <param name="Outcomes">Reports that count.</param>
/// <param name="Pairs">Pairs of them.</param>
public sealed record ReportedDecision(string Id, string? Coach, IReadOnlyList<LearnedOutcome> Outcomes, IReadOnlyList<ChoicePair> Pairs)
{
    /// <summary>Decisions with at least one pair, oldest first.</summary>
    /// <param name="outcomes">Reports that count, of any decisions.</param>
    /// <param name="rule">How likely a place is looked at.</param>
    public static IReadOnlyList<ReportedDecision> Of(IEnumerable<LearnedOutcome> outcomes, PositionRule rule) =>
    [
        .. outcomes.GroupBy(o => o.DecisionId, StringComparer.Ordinal).Select(g => (g.Key, Outcomes: (IReadOnlyList<LearnedOutcome>)[.. g.OrderBy(o => o.Facts.Picked.Exercise, StringComparer.Ordinal)]))
            .Select(d => new ReportedDecision(d.Key, d.Outcomes[0].Coach, d.Outcomes, ChoicePairs.Of(d.Outcomes, rule))).Where(d => d.Pairs.Count > 0).OrderBy(d => d.Id, StringComparer.Ordinal),
    ];
}

/// <summary>Holds learned numbers against later decisions: how often what was taken has more points, and how good the order is.</summary>
/// <param name="rule">How decisions are drawn again.</param>
/// <param name="bounds">Bounds of learned numbers.</param>
public sealed class PreferenceTrial(PublicationRule rule, PreferenceBounds bounds)
{
    /// <summary>Both figures, without and with.</summary>
    /// <param name="tests">Later decisions.</param>
    /// <param name="without">Numbers that are compared with; null for none.</param>
    /// <param name="with">The learned numbers.</param>
    /// <returns>Null where there is nothing to draw from: fewer than two decisions.</returns>
    public (TrialGain Pairs, TrialGain Ndcg)? Of(IReadOnlyList<ReportedDecision> tests, PreferenceNumbers? without, PreferenceNumbers with)
    {
        if (tests.Count < 2)
        {
            return null;
        }

        var (before, after) = (new LearnedScore(without, bounds), new LearnedScore(with, bounds));
        var counted = tests.Select(t => (t.Pairs.Count, Before: Right(t, before), After: Right(t, after))).ToArray();
        var ordered = tests.Select(t => (Before: Order(t, before), After: Order(t, after))).Where(o => o.Before is not null).Select(o => (Before: o.Before!.Value, After: o.After!.Value)).ToArray();
        var pairs = Gain(counted.Sum(c => c.Before) / counted.Sum(c => c.Count), counted.Sum(c => c.After) / counted.Sum(c => c.Count), counted.Length,
            drawn => drawn.Sum(i => counted[i].After - counted[i].Before) / drawn.Sum(i => counted[i].Count));
        var ndcg = ordered.Length < 2 ? new TrialGain(0, 0, 0, 0, 0)
            : Gain(ordered.Average(o => o.Before), ordered.Average(o => o.After), ordered.Length, drawn => drawn.Average(i => ordered[i].After - ordered[i].Before));
        return (pairs, ndcg);
    }

    /// <summary>Pairs in which what was taken has more points; equal points count half.</summary>
    private static double Right(ReportedDecision decision, LearnedScore score) =>
        decision.Pairs.Sum(p => Score(p.Taken, score).CompareTo(Score(p.Left, score)) switch { > 0 => 1.0, 0 => 0.5, _ => 0 });

    private double? Order(ReportedDecision decision, LearnedScore score)
    {
        // Oldest place first among equals, as the answer had it; what was done instead stands with what was taken.
        var items = new Dictionary<string, (bool Taken, int Score, int Place)>(StringComparer.Ordinal);
        foreach (var outcome in decision.Outcomes)
        {
            Put(outcome.Facts.Picked, outcome.Verdict == Verdicts.Used);
            if (outcome.Facts.Instead is { IsOpen: true } instead)
            {
                Put(instead, true);
            }
        }

        return OrderGain.Ndcg([.. items.OrderBy(i => i.Value.Place == 0 ? int.MaxValue : i.Value.Place).ThenBy(i => i.Key, StringComparer.Ordinal).Select(i => (i.Value.Taken, i.Value.Score))], rule.Top);

        void Put(ChoiceFacts facts, bool taken) => items[facts.Exercise] = (taken || (items.TryGetValue(facts.Exercise, out var before) && before.Taken), Score(facts, score), facts.Place);
    }

    private static int Score(ChoiceFacts facts, LearnedScore score) => score.Of(facts.Points, facts.Family, facts.LoadsSore);

    /// <summary>The percentile interval of the bootstrap over decisions. Source: efron-1993.</summary>
    private TrialGain Gain(double without, double with, int decisions, Func<int[], double> gainOf)
    {
        var random = new Random(rule.Seed);
        var (gains, drawn) = (new double[rule.Resamples], new int[decisions]);
        for (var r = 0; r < gains.Length; r++)
        {
            for (var i = 0; i < drawn.Length; i++)
            {
                drawn[i] = random.Next(decisions);
            }

            gains[r] = gainOf(drawn);
        }

        Array.Sort(gains);
        var tail = (1 - (double)rule.Confidence) / 2;
        return new TrialGain(Rounded(without), Rounded(with), Rounded(with - without), Rounded(gains[(int)(tail * gains.Length)]), Rounded(gains[Math.Min(gains.Length - 1, (int)((1 - tail) * gains.Length))]));
    }

    private static decimal Rounded(double value) => decimal.Round((decimal)value, 4);
}
