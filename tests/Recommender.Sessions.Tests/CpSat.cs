using Google.OrTools.Sat;
using Recommender.Domain.Sessions;

namespace Recommender.Sessions.Tests;

/// <summary>The same choice put to CP-SAT of Google.OrTools, written from the definition of the problem, not from our search.</summary>
internal static class CpSat
{
    /// <summary>The best value, or null when no set keeps the limits.</summary>
    public static int? Best(SetProblem problem)
    {
        var model = new CpModel();
        var x = Enumerable.Range(0, problem.Count).Select(i => model.NewBoolVar($"x{i}")).ToArray();
        var value = LinearExpr.WeightedSum(x, problem.Own);
        for (var l = 0; l < problem.Gains.Length; l++)
        {
            // The n-th member's gain is had once n members are in; gains fall, so the larger ones are taken first of themselves.
            var members = x.Where((_, i) => problem.Layers[i].Contains(l)).ToArray();
            var had = problem.Gains[l].Select((_, n) => model.NewBoolVar($"u{l}.{n}")).ToArray();
            model.Add(LinearExpr.Sum(had) <= LinearExpr.Sum(members));
            value += LinearExpr.WeightedSum(had, problem.Gains[l]);
        }

        foreach (var family in Enumerable.Range(0, problem.Count).GroupBy(i => problem.Families[i]).Where(g => g.Count() > 1))
        {
            model.AddAtMostOne(family.Select(i => x[i]));
        }

        foreach (var row in problem.Rows)
        {
            model.Add(LinearExpr.WeightedSum(x, row.Coefficients) <= row.Limit);
        }

        model.AddLinearConstraint(LinearExpr.Sum(x), problem.Least, problem.Most);
        model.Maximize(value);
        using var solver = new CpSolver { StringParameters = "num_workers:1,max_time_in_seconds:60" };
        return solver.Solve(model) switch
        {
            CpSolverStatus.Optimal => (int)Math.Round(solver.ObjectiveValue),
            CpSolverStatus.Infeasible => null,
            var status => throw new InvalidOperationException($"CP-SAT stopped as {status}."),
        };
    }
}
