namespace Recommender.Domain.Sessions;

/// <summary>The chosen set, and how it was reached.</summary>
/// <param name="Items">Candidates, ascending; null when no set keeps the limits.</param>
/// <param name="Problem">The problem it solves.</param>
/// <param name="Solution">What the search said of it.</param>
/// <param name="BestItems">The best set, before earlier picks were kept.</param>
/// <param name="BestValue">Its points.</param>
/// <param name="BalanceDropped">Whether the rules of balance had to go.</param>
internal sealed record SessionChoice(int[]? Items, SetProblem Problem, SetSolution Solution, int[]? BestItems, int BestValue, bool BalanceDropped)
{
    /// <summary>Prices of the best set's problem.</summary>
    public SetPrices? BestPrices { get; init; }

    /// <summary>Rows of that problem.</summary>
    public int BestRows { get; init; }
}

/// <summary>Chooses the set: the best one; the best without balance where locks or the fewest slots leave no other; near the best, the one that keeps most of the earlier picks.</summary>
internal sealed class SessionSolver(SessionProblem session, int tenths, int least, int most, int nodes)
{
    /// <summary>Chooses.</summary>
    /// <param name="earlier">Positions of earlier picks that may be kept.</param>
    /// <param name="lossShare">Share of the best set's points that may be lost for them.</param>
    public SessionChoice Choose(IReadOnlySet<int> earlier, decimal lossShare)
    {
        Func<string, bool>? without = null;
        var problem = session.With(tenths, least, most);
        var solution = SetSearch.Solve(problem, nodes);
        if (solution is { Items: null, Proven: true } && session.Candidates.Count > 0)
        {
            without = id => id.StartsWith(SessionProblem.BalancePrefix, StringComparison.Ordinal);
            problem = session.With(tenths, least, most, without: without);
            solution = SetSearch.Solve(problem, nodes);
        }

        var choice = new SessionChoice(solution.Items, problem, solution, solution.Items, solution.Value, without is not null) { BestPrices = solution.Prices, BestRows = problem.Rows.Count };
        return solution.Items is null || earlier.Count == 0 ? choice : Keeping(choice, earlier, lossShare, without);
    }

    /// <summary>What the best set gains when one limit is wider; 0 when nothing.</summary>
    public int GainWith(SessionChoice choice, int moreTenths = 0, int moreOn = -1, decimal moreShare = 0)
    {
        Func<string, bool>? without = choice.BalanceDropped ? id => id.StartsWith(SessionProblem.BalancePrefix, StringComparison.Ordinal) : null;
        var wider = session.With(tenths + moreTenths, least, most, moreOn, moreShare, without);
        var solution = SetSearch.Solve(wider, nodes, choice.BestValue, choice.BestPrices is { } known && wider.Rows.Count == choice.BestRows ? known : null);
        return solution.Items is null ? 0 : solution.Value - choice.BestValue;
    }

    /// <summary>Whether there is a session without some limits.</summary>
    public SetSolution Without(Func<string, bool> without, int fewest) => SetSearch.Solve(session.With(tenths, fewest, most, without: without), nodes);

    private SessionChoice Keeping(SessionChoice best, IReadOnlySet<int> earlier, decimal lossShare, Func<string, bool>? without)
    {
        var floor = best.BestValue - (int)decimal.Floor(Math.Abs(best.BestValue) * lossShare);
        var already = best.Items!.Count(i => earlier.Contains(session.Candidates[i].Position));
        for (var keep = Math.Min(earlier.Count, most); keep > already; keep--)
        {
            var problem = session.With(tenths, least, most, without: without, further: session.AtLeast("earlier", earlier, keep));
            var solution = SetSearch.Solve(problem, nodes, floor - 1, null);
            if (solution.Items is not null)
            {
                return best with { Items = solution.Items, Problem = problem, Solution = solution with { Proven = solution.Proven && best.Solution.Proven } };
            }
        }

        return best;
    }
}
