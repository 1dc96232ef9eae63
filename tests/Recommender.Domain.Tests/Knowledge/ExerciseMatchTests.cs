using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Knowledge;

public sealed class ExerciseMatchTests
{
    private static readonly Exercise Drop = ExerciseBuilder.Named("drop").OfPattern("jump").At(LoadingRate.Impact).At(LoadBand.Unloaded).Rated("reactive-strength", 2).Asking("reactive-jumps")
        .WithFacts(f => f with { DropHeightCm = 30 }).But(e => e with { Contraction = "stretch-shortening", SorenessRisk = 2, Complexity = 3 });

    [Fact]
    public void Without_conditions_it_is_about_everything() => Assert.True(new ExerciseMatch().Holds(Drop));

    [Fact]
    public void All_conditions_must_hold_and_each_can_fail_alone()
    {
        var all = new ExerciseMatch(["jump"], [LoadBand.Unloaded], [LoadingRate.Impact], ["stretch-shortening"], 2, 3, 30, ["reactive-jumps", "overhead-work"],
            new Dictionary<string, int> { ["reactive-strength"] = 2, ["grip"] = 3 }, ["drop"]);
        Assert.True(all.Holds(Drop));
        ExerciseMatch[] none =
        [
            all with { Patterns = ["squat"] }, all with { LoadBands = [LoadBand.Heavy] }, all with { LoadingRates = [LoadingRate.Slow] }, all with { Contractions = ["isometric"] },
            all with { SorenessRiskAtLeast = 3 }, all with { ComplexityAtLeast = 4 }, all with { DropHeightCmAtLeast = 30.1m }, all with { Competences = ["overhead-work"] },
            all with { Qualities = new Dictionary<string, int> { ["reactive-strength"] = 3 } }, all with { Exercises = ["other"] },
        ];
        Assert.All(none, match => Assert.False(match.Holds(Drop), match.ToString()));
    }
}
