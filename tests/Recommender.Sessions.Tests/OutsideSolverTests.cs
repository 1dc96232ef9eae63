using Recommender.Domain;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Sessions.Tests;

/// <summary>Our search against CP-SAT of Google.OrTools 9.15, a solver of another kind by other people.</summary>
public sealed class OutsideSolverTests(ITestOutputHelper output)
{
    private const int Nodes = 5_000_000;

    [Fact]
    public void Small_random_sets_have_the_value_that_the_outside_solver_finds()
    {
        var feasible = 0;
        for (var seed = 0; seed < 100; seed++)
        {
            var problem = RandomSets.Of(seed, items: 14, most: 4);
            var solution = SetSearch.Solve(problem, Nodes);
            Assert.True(solution.Proven);
            Assert.Equal(CpSat.Best(problem), solution.Items is null ? null : solution.Value);
            feasible += solution.Items is null ? 0 : 1;
        }

        Assert.InRange(feasible, 50, 100);
    }

    [Fact]
    public void Larger_random_sets_have_the_value_that_the_outside_solver_finds()
    {
        for (var seed = 1000; seed < 1040; seed++)
        {
            var problem = RandomSets.Of(seed, items: 80, most: 6);
            var solution = SetSearch.Solve(problem, Nodes);
            Assert.True(solution.Proven);
            Assert.Equal(CpSat.Best(problem), solution.Items is null ? null : solution.Value);
        }
    }

    [Fact]
    public void Sessions_of_the_shipped_catalogue_have_the_value_that_the_outside_solver_finds()
    {
        foreach (var (name, request) in Requests())
        {
            var problem = SessionPipeline.Problem(request, TestEdition.Current);
            var solution = SetSearch.Solve(problem, Nodes);
            var outside = CpSat.Best(problem);
            output.WriteLine($"{name}: {problem.Count} candidates, ours {solution.Value}, CP-SAT {outside}, {solution.Nodes} sets examined, root bound {solution.RootBound}");
            Assert.True(solution.Proven);
            Assert.Equal(outside, solution.Items is null ? null : solution.Value);
            Assert.True(solution.Items is null || problem.Holds(solution.Items));
        }
    }

    private static IEnumerable<(string, SessionRequest)> Requests()
    {
        foreach (var group in TestEdition.Vocabulary.EventGroups)
        {
            foreach (var minutes in new[] { 20m, 40m })
            {
                var context = RequestBuilder.Skilled(group.Id).InMinutes(minutes);
                yield return ($"{group.Id}, {minutes} minutes", new SessionRequest { Context = context });
            }
        }

        RecommendationRequest sore = RequestBuilder.Skilled().Sore("patellar-tendon", 3, "left").InMinutes(35);
        yield return ("sore tendon", new SessionRequest { Context = sore, Budgets = new Dictionary<string, decimal> { ["patellar-tendon"] = 150, ["lower-back"] = 250 } });
        yield return ("locked", new SessionRequest { Context = sore, Locked = ["spanish-squat-hold"], Slots = new SlotRange { Min = 4, Max = 5 } });
    }
}
