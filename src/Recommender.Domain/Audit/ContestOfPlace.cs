using Recommender.Domain.Knowledge;
using Recommender.Domain.Sessions;

namespace Recommender.Domain.Audit;

/// <summary>
/// For a session: whether the exercise that stands first keeps its place, the others left as they are. It loses it when some exercise that could stand there inside
/// every limit would make the set worth more.
/// </summary>
/// <remarks>
/// A set solved anew for each sample would take seconds, and its first member would count as gone whenever two sets of equal worth change places. What a coach asks of a
/// pick is whether something else belongs there; that is this question, exactly, for exchanges of one.
/// </remarks>
internal sealed class ContestOfPlace : Contest
{
    private const int Ratings = 3;
    private const int Fine = 100_000;
    private readonly SessionRules rules;
    private readonly VariedNumber ownShare;
    private readonly VariedNumber[] nth;
    private readonly int[] values;
    private readonly bool[] fits;
    private readonly int[] losses; // what the dose that fits loses of the need points, of Fine
    private readonly int[] others; // indices of the other members
    private readonly int[] members; // [quality, rating] how many of the others stand in each layer
    private readonly int[] gains; // [quality, rating] what a further member brings
    private readonly int qualities;

    public ContestOfPlace(Trial trial, SessionProblem problem, SessionChoice choice, int first, VariedNumbers numbers, IReadOnlySet<int>? only = null)
    {
        rules = trial.Situation.Knowledge.Session;
        qualities = trial.Situation.Catalogue.Vocabulary.Qualities.Count;
        var set = choice.Items!;
        int[] kept = [.. set.Where(i => problem.Candidates[i].Position != first)];
        var least = Scoring.Points.Of(trial.Situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;

        // Where its usual dose does not fit, a smaller one may; it loses need points in the proportion of its sets.
        var open = Enumerable.Range(0, problem.Candidates.Count)
            .Where(i => problem.Candidates[i].NeedsTenths == 0 && (trial.NeedPoints[problem.Candidates[i].Position] >= least || problem.Candidates[i].Position == first) && !kept.Contains(i) && choice.Problem.Holds([.. kept, i]))
            .Where(i => problem.Candidates[i].Position == first || only?.Contains(problem.Candidates[i].Position) != false)
            .GroupBy(i => problem.Candidates[i].Position)
            .ToDictionary(g => g.Key, g => g.Min(i => Loss(problem.Candidates, i)));
        var positions = open.Keys.Concat(kept.Select(i => problem.Candidates[i].Position)).Distinct().Order().ToArray();
        Exercises = new VariedExercises(trial.Situation, positions, numbers) { Leans = trial.Leans(positions) };
        First = Array.IndexOf(positions, first);
        others = [.. kept.Select(i => Array.IndexOf(positions, problem.Candidates[i].Position))];
        fits = [.. positions.Select((p, i) => open.ContainsKey(p) && !others.Contains(i))];
        losses = [.. positions.Select(p => open.GetValueOrDefault(p))];
        values = new int[positions.Length];
        members = new int[qualities * (Ratings + 1)];
        gains = new int[members.Length];
        ownShare = numbers.Of("rules/session/objective/ownShare", rules.Objective.OwnShare, rules.Objective.Basis, most: 1);
        nth = [.. rules.Objective.NthShare.Select((share, n) => numbers.Of($"rules/session/objective/nthShare/{n}", share, rules.Objective.Basis, most: 1))];
    }

    public override int First { get; }

    public override VariedExercises Exercises { get; }

    public override Standing In(Draws draws)
    {
        Exercises.In(draws);
        Array.Clear(members);
        foreach (var i in others)
        {
            for (var k = Exercises.StartOf(i); k < Exercises.StartOf(i + 1); k++)
            {
                for (var r = 1; r <= Exercises.Drawn[k]; r++)
                {
                    members[(Exercises.QualityAt(k) * (Ratings + 1)) + r]++;
                }
            }
        }

        Gains(draws);
        var share = (long)decimal.Round(ownShare.In(draws) * Fine);
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = fits[i] ? Part(Exercises.Scores[i], share) - Part(Exercises.NeedPoints[i], losses[i]) + Brings(i) : int.MinValue;
        }

        return Best(values);
    }

    protected override long ValueOf(int index) => values[index] == int.MinValue ? long.MinValue : values[index];

    /// <summary>A share of points, halves away from zero.</summary>
    private static int Part(int points, long share) => (int)(((points * share) + (Math.Sign(points) * (Fine / 2))) / Fine);

    /// <summary>Share of the need points that a dose loses; the usual one stands before the smaller.</summary>
    private int Loss(IReadOnlyList<SessionCandidate> candidates, int i) => !candidates[i].Smaller ? 0
        : (int)decimal.Round(rules.SmallerDose.Share * (candidates[i - 1].Dose.Sets - candidates[i].Dose.Sets) / candidates[i - 1].Dose.Sets * Fine);

    /// <summary>What a further member of each layer brings, and all below it.</summary>
    private void Gains(Draws draws)
    {
        Span<decimal> shares = stackalloc decimal[nth.Length];
        for (var n = 0; n < nth.Length; n++)
        {
            shares[n] = nth[n].In(draws);
        }

        for (var q = 0; q < qualities; q++)
        {
            var sum = 0;
            for (var r = 1; r <= Ratings; r++)
            {
                var at = (q * (Ratings + 1)) + r;
                var step = Exercises.Table.At(q, r) - (r == 1 ? 0 : Exercises.Table.At(q, r - 1));
                sum += step == 0 || members[at] >= nth.Length ? 0 : (int)decimal.Round(step * shares[members[at]], MidpointRounding.AwayFromZero);
                gains[at] = sum;
            }
        }
    }

    private int Brings(int i)
    {
        var sum = 0;
        for (var k = Exercises.StartOf(i); k < Exercises.StartOf(i + 1); k++)
        {
            sum += gains[(Exercises.QualityAt(k) * (Ratings + 1)) + Exercises.Drawn[k]];
        }

        return sum;
    }
}
