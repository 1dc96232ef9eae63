using Recommender.Domain.Sessions;
using Recommender.Testing;
using Xunit.Abstractions;

namespace Recommender.Domain.Tests.Sessions;

/// <summary>The search against trying every set, and against taking the best one after another.</summary>
public sealed class SetSearchTests(ITestOutputHelper output)
{
    private const int Nodes = 1_000_000;

    [Fact]
    public void Two_hundred_small_instances_have_the_value_that_trying_every_set_finds()
    {
        var (feasible, better, shares) = (0, 0, new List<double>());
        for (var seed = 0; seed < 200; seed++)
        {
            var problem = RandomSets.Of(seed, items: 8 + (seed % 7), most: 2 + (seed % 3));
            var (items, value) = RandomSets.Exhaustive(problem);
            var solution = SetSearch.Solve(problem, Nodes);
            Assert.True(solution.Proven);
            Assert.Equal(items is null, solution.Items is null);
            if (items is null)
            {
                continue;
            }

            feasible++;
            Assert.Equal(value, solution.Value);
            Assert.Equal(value, problem.Value(solution.Items!));
            Assert.True(problem.Holds(solution.Items!));
            Assert.True(solution.RootBound >= value);
            if (SetGreedy.One(problem) is { } greedy)
            {
                Assert.True(problem.Value(greedy) <= value);
                better += problem.Value(greedy) < value ? 1 : 0;
                shares.Add(value <= 0 ? 0 : (value - problem.Value(greedy)) / (double)value);
            }
        }

        output.WriteLine($"{feasible} of 200 instances can be met; equal to every set tried in all; greedy finds a set in {shares.Count}; ours is better in {better}, by {shares.Average() * 100:0.0} % on average.");
        Assert.InRange(feasible, 100, 200);
        Assert.InRange(better, 20, 200);
    }

    [Fact]
    public void A_search_that_must_stop_says_so_with_its_gap()
    {
        var problem = RandomSets.Of(1003, items: 80, most: 6);
        var whole = SetSearch.Solve(problem, Nodes);
        var stopped = SetSearch.Solve(problem, 1);
        Assert.True(whole.Proven && whole.Nodes > 1);
        Assert.False(stopped.Proven);
        Assert.True(stopped.Bound >= whole.Value);
    }

    [Fact]
    public void Nothing_is_found_where_a_limit_forbids_every_set()
    {
        var problem = new SetProblem([5, 5], [[], []], [], [0, 1], [new SetRow("minutes", [10, 10], 9)], 1, 2);
        Assert.Null(SetSearch.Solve(problem, Nodes).Items);
        Assert.True(SetSearch.Solve(problem, Nodes).Proven);
    }

    [Fact]
    public void A_further_member_of_a_layer_brings_less_so_another_layer_is_chosen()
    {
        // Worked by hand: two of the same layer bring 10 + 4, one of each 10 + 6.
        var problem = new SetProblem([0, 0, 0], [[0], [0], [1]], [[10, 4], [6, 2]], [0, 1, 2], [], 1, 2);
        var solution = SetSearch.Solve(problem, Nodes);
        Assert.Equal(16, solution.Value);
        Assert.Contains(2, solution.Items!);
    }
}
