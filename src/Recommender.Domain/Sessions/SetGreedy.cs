namespace Recommender.Domain.Sessions;

/// <summary>Takes what brings most, one after another, then tries single exchanges: a start for the search, and what it is compared with.</summary>
public static class SetGreedy
{
    /// <summary>One after another what brings most and fits; stops where nothing adds points.</summary>
    /// <returns>A set that keeps every limit, or null when this way finds none.</returns>
    public static int[]? One(SetProblem problem)
    {
        var state = new SetState(new SetTable(problem));
        return Fill(problem, state) ? state.Items : null;
    }

    /// <summary>The same, then bettered by exchanging one item for another, or adding one, until nothing helps.</summary>
    public static int[]? Solve(SetProblem problem) => Solve(new SetTable(problem));

    /// <summary>The same, on a problem laid out already: the better of starting by points and by points for what is used of the first limit.</summary>
    internal static int[]? Solve(SetTable table)
    {
        int[]? best = null;
        foreach (var spare in new[] { false, true })
        {
            var state = new SetState(table);
            if (!Fill(table.Problem, state, spare))
            {
                continue;
            }

            for (var round = 0; round < 4 * table.Problem.Most && Exchange(table.Problem, state); round++)
            {
                Fill(table.Problem, state);
            }

            best = best is null || state.Value > table.Problem.Value(best) ? state.Items : best;
        }

        return best;
    }

    private static bool Fill(SetProblem problem, SetState state, bool spare = false)
    {
        var dear = spare && problem.Rows.Count > 0 ? problem.Rows[0].Coefficients : null;
        while (state.Count < problem.Most)
        {
            var mustGrow = !state.Holds();
            var (best, gain) = (-1, mustGrow ? int.MinValue : 0);
            for (var i = 0; i < problem.Count; i++)
            {
                var more = state.Gain(i);
                more = more > 0 && dear is not null ? more * 16 / Math.Max(1, dear[i]) : more;
                if (more > gain && state.Fits(i) && (mustGrow || state.HoldsWith(i)))
                {
                    (best, gain) = (i, more);
                }
            }

            if (best < 0)
            {
                break;
            }

            state.Add(best);
        }

        return state.Holds();
    }

    /// <summary>The best exchange of one item, done; false when none helps.</summary>
    private static bool Exchange(SetProblem problem, SetState state)
    {
        var value = state.Value;
        var (leaves, enters) = (-1, -1);
        foreach (var leaving in state.Items)
        {
            state.Remove(leaving);
            for (var i = 0; i < problem.Count; i++)
            {
                if (state.Value + state.Gain(i) > value && state.Fits(i) && state.HoldsWith(i))
                {
                    (value, leaves, enters) = (state.Value + state.Gain(i), leaving, i);
                }
            }

            state.Add(leaving);
        }

        if (leaves < 0)
        {
            return false;
        }

        state.Remove(leaves);
        state.Add(enters);
        return true;
    }
}
