namespace Recommender.Domain.Audit;

/// <summary>Who is first in a draw.</summary>
internal abstract class Contest
{
    /// <summary>Index of the first place as it stands.</summary>
    public abstract int First { get; }

    /// <summary>Exercises of the contest.</summary>
    public abstract VariedExercises Exercises { get; }

    /// <summary>Draws, and gives who is first.</summary>
    public abstract Standing In(Draws draws);

    /// <summary>Catalogue positions of the best in the last draw, at most so many; what is not in the contest is not among them.</summary>
    public IReadOnlySet<int> Best(int most) => Enumerable.Range(0, Exercises.Positions.Count).Where(i => ValueOf(i) > long.MinValue).OrderByDescending(ValueOf).ThenBy(i => i).Take(most).Select(i => Exercises.Positions[i]).ToHashSet();

    /// <summary>What an exercise is worth in the last draw; the least there is where it is not in the contest.</summary>
    protected abstract long ValueOf(int index);

    /// <summary>The best of the others, and the margin; equal ones fall to the lower index, which is the lower id.</summary>
    protected Standing Best(ReadOnlySpan<int> values)
    {
        var (rival, above) = (-1, 0);
        var own = values[First];
        for (var i = 0; i < values.Length; i++)
        {
            if (i == First || values[i] == int.MinValue)
            {
                continue;
            }

            above += values[i] > own || (values[i] == own && i < First) ? 1 : 0;
            rival = rival < 0 || values[i] > values[rival] ? i : rival;
        }

        // One that serves no need enough is not picked at all.
        return own == int.MinValue ? new Standing(rival, null, int.MaxValue)
            : rival < 0 ? new Standing(First, null, 0)
            : new Standing(above == 0 ? First : rival, own - values[rival], above);
    }
}

/// <summary>Who is first in a draw.</summary>
/// <param name="Winner">Index of the first; -1 where there is none.</param>
/// <param name="Margin">By how much the first place as it stands is ahead of the best other, negative where it is behind; null where one of the two is not there.</param>
/// <param name="Above">How many others are above it.</param>
internal readonly record struct Standing(int Winner, int? Margin, int Above);

/// <summary>By points, among what may be picked. What the spread or an ask held back below the first place stays held back.</summary>
internal sealed class ContestOfPoints : Contest
{
    private readonly int[] values;
    private readonly bool[] heldBack;

    public ContestOfPoints(Trial trial, int first, VariedNumbers numbers, IReadOnlySet<int>? only = null)
    {
        var positions = trial.Ranking().Positions.Where(p => p == first || only?.Contains(p) != false).Order().ToArray();
        Exercises = new VariedExercises(trial.Situation, positions, numbers) { Leans = trial.Leans(positions) };
        First = Array.IndexOf(positions, first);
        values = new int[positions.Length];
        var least = Scoring.Points.Of(trial.Situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths;
        heldBack = [.. positions.Select((p, i) => p != first && trial.NeedPoints[p] >= least && (trial.Scores[p] > trial.Scores[first] || (trial.Scores[p] == trial.Scores[first] && p < first)))];
    }

    public override int First { get; }

    public override VariedExercises Exercises { get; }

    public override Standing In(Draws draws)
    {
        Exercises.In(draws);
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = heldBack[i] || Exercises.NeedPoints[i] < Exercises.Needs.Least ? int.MinValue : Exercises.Scores[i];
        }

        return Best(values);
    }

    protected override long ValueOf(int index) => values[index] == int.MinValue ? long.MinValue : values[index];
}
