using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Scoring;

namespace Recommender.Learning.Preferences;

/// <summary>What was learned: of the organisation, and of the coaches of whom there is enough.</summary>
/// <param name="Organisation">The organisation's numbers; null while there are too few pairs.</param>
/// <param name="Coaches">Coach to numbers: the organisation's and the coach's own part of each. Coaches in ordinal order.</param>
/// <param name="PointsPerUnit">Points that one unit of log odds is worth.</param>
public sealed record LearnedNumbers(PreferenceNumbers? Organisation, IReadOnlyDictionary<string, PreferenceNumbers> Coaches, decimal PointsPerUnit);

/// <summary>
/// Fits what coaches lean to. The log odds that one exercise is taken over another hang on the difference of their scores, on the difference of every factor's points beyond that, and on
/// their families; each of these numbers has a part that all coaches share and, where there is enough of a coach, a part of that coach's own.
/// </summary>
/// <remarks>
/// Shrinkage pulls every part but the score's to 0, so that little data moves little. The score's part says how many points make a choice certain, and turns log odds into points. The same
/// pairs in any order give the same numbers, rounded to three places.
/// </remarks>
public static class PreferenceFit
{
    private const int Places = 3;

    /// <summary>A factor's difference is counted in units of so many thousandths: a share of 1 of five points is then one unit.</summary>
    private const double Unit = 5000;

    /// <summary>The score's own part is next to free of shrinkage.</summary>
    private const double ScoreFree = 10;

    /// <summary>Factors that are learned of: all but the learned one, which is the last.</summary>
    private static readonly int Factors = ScoringEngine.Factors.Count - 1;

    /// <summary>Fits.</summary>
    /// <param name="pairs">Pairs of one organisation.</param>
    /// <param name="rules">Rules.</param>
    public static LearnedNumbers Of(IReadOnlyList<ChoicePair> pairs, OutcomeRules rules)
    {
        if (pairs.Count < rules.Pairs.Least)
        {
            return new LearnedNumbers(null, new SortedDictionary<string, PreferenceNumbers>(StringComparer.Ordinal), rules.Fit.LeastPointsPerUnit);
        }

        // Sums of floating-point numbers hang on their order, so there is one.
        var ordered = pairs.OrderBy(p => p.DecisionId, StringComparer.Ordinal).ThenBy(p => p.Taken.Exercise, StringComparer.Ordinal).ThenBy(p => p.Left.Exercise, StringComparer.Ordinal).ToList();
        var families = ordered.SelectMany(p => new[] { p.Taken.Family, p.Left.Family }).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        var coaches = ordered.Where(p => p.Coach is not null).GroupBy(p => p.Coach!, StringComparer.Ordinal).Where(g => g.Count() >= rules.Pairs.LeastOfCoach).Select(g => g.Key).Order(StringComparer.Ordinal).ToList();
        var block = Factors + families.Count;
        var differences = new Differences(families, coaches, block, Math.Sqrt((double)rules.Fit.CoachShare), MeanOfPlaces(ordered));
        var fitted = PairRegression.Fit([.. ordered.Select(differences.Of)], 1 + (block * (1 + coaches.Count)), (double)rules.Fit.Shrinkage);

        var perPoint = fitted[0] * ScoreFree / Unit * 1000;
        var perUnit = perPoint <= 0 ? rules.Fit.MostPointsPerUnit : Math.Clamp((decimal)Math.Min(1 / perPoint, 1000), rules.Fit.LeastPointsPerUnit, rules.Fit.MostPointsPerUnit);
        return new LearnedNumbers(Numbers(PreferenceScope.Organisation, ordered, i => fitted[1 + i]),
            new SortedDictionary<string, PreferenceNumbers>(coaches.Select((coach, c) => (coach, Numbers(PreferenceScope.Coach, [.. ordered.Where(p => p.Coach == coach)],
                i => fitted[1 + i] + (differences.CoachScale * fitted[1 + (block * (1 + c)) + i])))).ToDictionary(x => x.coach, x => x.Item2), StringComparer.Ordinal), decimal.Round(perUnit, Places));

        PreferenceNumbers Numbers(PreferenceScope scope, IReadOnlyList<ChoicePair> of, Func<int, double> number)
        {
            var factors = new SortedDictionary<string, decimal>(StringComparer.Ordinal);
            for (var f = 0; f < Factors; f++)
            {
                // Log odds of a difference of one unit, in points of that unit: a share of the factor's points. What may only grow stays at 0 or above.
                var share = decimal.Round((decimal)(number(f) * (double)perUnit / (Unit / 1000)), Places, MidpointRounding.AwayFromZero);
                factors[ScoringEngine.Factors[f].Id] = rules.Bounds.OnlyGrow.Contains(ScoringEngine.Factors[f].Id, StringComparer.Ordinal) ? Math.Max(0, share) : share;
            }

            var byFamily = families.Select((family, i) => (family, Points: decimal.Round((decimal)(number(Factors + i) * (double)perUnit), Places, MidpointRounding.AwayFromZero))).Where(x => x.Points != 0);
            var choices = of.SelectMany(p => new[] { (p.DecisionId, p.Taken.Exercise), (p.DecisionId, p.Left.Exercise) }).Distinct().Count();
            return new PreferenceNumbers(scope, choices, of.Count, factors, new SortedDictionary<string, decimal>(byFamily.ToDictionary(x => x.family, x => x.Points), StringComparer.Ordinal));
        }
    }

    /// <summary>Mean weight for places, by which all are divided: it shifts what counts, and not how much all of it counts against the shrinkage.</summary>
    private static double MeanOfPlaces(List<ChoicePair> pairs)
    {
        var decisions = pairs.GroupBy(p => p.DecisionId, StringComparer.Ordinal).Select(g => (Sum: g.Sum(p => p.Weight), Apart: Math.Min(g.Count(), g.SelectMany(p => new[] { p.Taken.Exercise, p.Left.Exercise }).Distinct(StringComparer.Ordinal).Count() - 1))).ToList();
        return (double)(decisions.Sum(d => d.Sum) / decisions.Sum(d => d.Apart));
    }

    /// <summary>Pairs as differences: the score, then the numbers that all share, then each coach's own part.</summary>
    private sealed class Differences(IReadOnlyList<string> families, IReadOnlyList<string> coaches, int block, double coachScale, double meanWeight)
    {
        private readonly Dictionary<string, int> familyAt = families.Select((f, i) => (f, i)).ToDictionary(x => x.f, x => x.i, StringComparer.Ordinal);
        private readonly Dictionary<string, int> coachAt = coaches.Select((c, i) => (c, i)).ToDictionary(x => x.c, x => x.i, StringComparer.Ordinal);

        public double CoachScale => coachScale;

        public PairDifference Of(ChoicePair pair)
        {
            var common = new List<(int At, double By)>();
            for (var f = 0; f < Factors; f++)
            {
                if (pair.Taken.Points[f] != pair.Left.Points[f])
                {
                    common.Add((f, (pair.Taken.Points[f] - pair.Left.Points[f]) / Unit));
                }
            }

            if (pair.Taken.Family != pair.Left.Family)
            {
                (int, double)[] both = [(Factors + familyAt[pair.Taken.Family], 1), (Factors + familyAt[pair.Left.Family], -1)];
                common.AddRange(both.OrderBy(b => b.Item1));
            }

            var own = pair.Coach is not null && coachAt.TryGetValue(pair.Coach, out var coach) ? coach : -1;
            var n = 1 + (common.Count * (own < 0 ? 1 : 2));
            var (indices, values) = (new int[n], new float[n]);
            values[0] = (float)((pair.Taken.Points.Sum() - pair.Left.Points.Sum()) / Unit * ScoreFree);
            for (var i = 0; i < common.Count; i++)
            {
                (indices[1 + i], values[1 + i]) = (1 + common[i].At, (float)common[i].By);
                if (own >= 0)
                {
                    (indices[1 + common.Count + i], values[1 + common.Count + i]) = (1 + (block * (1 + own)) + common[i].At, (float)(common[i].By * coachScale));
                }
            }

            return new PairDifference(indices, values, (float)((double)pair.Weight / meanWeight));
        }
    }
}
