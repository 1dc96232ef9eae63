using System.Text.Json.Nodes;
using Recommender.Learning.Preferences;

namespace Recommender.Learning.Tests.Preferences;

/// <summary>The pair fit against a published example and the reference implementation; see american-league-1987.json for both sources.</summary>
public sealed class PairRegressionTests
{
    private static readonly JsonNode File = JsonNode.Parse(System.IO.File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Preferences", "american-league-1987.json")))!;

    private static readonly Dictionary<string, double> Abilities = File["abilities"]!.AsObject().ToDictionary(a => a.Key, a => (double)a.Value!);

    private static readonly string[] Teams = [.. Abilities.Keys.Order(StringComparer.Ordinal)];

    [Fact]
    public void Abilities_of_a_baseball_season_are_those_of_the_reference_implementation()
    {
        var fitted = PairRegression.Fit(Season(), Teams.Length, shrinkage: 0);

        Assert.All(Teams, (team, i) => Assert.Equal(Abilities[Teams[i]], fitted[i], 4));

        // As printed in the textbook, two decimals, Baltimore at 0. From memory: Milwaukee 1.58, Detroit 1.44, Toronto 1.29, New York 1.25, Boston 1.11, Cleveland 0.68.
        Assert.Equal([1.11, 0.68, 1.44, 1.58, 1.25, 1.29], fitted.Select(f => Math.Round(f, 2)));
    }

    [Fact]
    public void The_order_of_the_pairs_leaves_no_trace()
    {
        var season = Season();
        var (one, other) = (PairRegression.Fit(season, Teams.Length, 1), PairRegression.Fit([.. season.Reverse()], Teams.Length, 1));

        Assert.All(one, (ability, i) => Assert.Equal(ability, other[i], 8));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(10)]
    [InlineData(100)]
    public void Shrinkage_solves_the_penalised_likelihood_and_pulls_everything_to_zero(double shrinkage)
    {
        var season = Season();
        var fitted = PairRegression.Fit(season, Teams.Length, shrinkage);

        // At the optimum the pull of the data on each number is the shrinkage's: shrinkage x number = sum of weight x difference x chance that the other was taken.
        for (var i = 0; i < Teams.Length; i++)
        {
            var pull = season.Sum(p => Enumerable.Range(0, p.Indices.Length).Where(k => p.Indices[k] == i).Sum(k => p.Weight * p.Values[k] / (1 + Math.Exp(Enumerable.Range(0, p.Indices.Length).Sum(n => fitted[p.Indices[n]] * p.Values[n])))));
            Assert.Equal(pull, shrinkage * fitted[i], 6);
        }

        Assert.True(fitted.Sum(Math.Abs) < Abilities.Values.Sum());
    }

    [Fact]
    public void Weights_count_like_repeated_pairs()
    {
        PairDifference[] once = [new([0], [1], 3), new([0], [-1], 1)];
        PairDifference[] thrice = [new([0], [1], 1), new([0], [1], 1), new([0], [1], 1), new([0], [-1], 1)];

        Assert.Equal(PairRegression.Fit(thrice, 1, 0)[0], PairRegression.Fit(once, 1, 0)[0], 6);

        // Three of four taken: log odds ln 3.
        Assert.Equal(Math.Log(3), PairRegression.Fit(once, 1, 0)[0], 6);
    }

    private static PairDifference[] Season()
    {
        var pairs = new List<PairDifference>();
        foreach (var game in File["games"]!.AsArray())
        {
            var (home, away, won, lost) = ((string)game![0]!, (string)game[1]!, (int)game[2]!, (int)game[3]!);
            Add(home, away, won);
            Add(away, home, lost);
        }

        return [.. pairs];

        void Add(string winner, string loser, int wins)
        {
            var sides = new[] { (At: Array.IndexOf(Teams, winner), By: 1f), (At: Array.IndexOf(Teams, loser), By: -1f) }.Where(s => s.At >= 0).OrderBy(s => s.At).ToArray();
            if (wins > 0)
            {
                pairs.Add(new PairDifference([.. sides.Select(s => s.At)], [.. sides.Select(s => s.By)], wins));
            }
        }
    }
}
