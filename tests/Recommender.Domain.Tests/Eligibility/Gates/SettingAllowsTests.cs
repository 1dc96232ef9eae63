using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class SettingAllowsTests
{
    [Fact]
    public void Asks_nothing_without_limits() => GateVerifier.Of<SettingAllows>().Given(RequestBuilder.For().Limited()).HasNothingToAsk();

    [Fact]
    public void No_impact_refuses_a_landing() => Verify(ExerciseBuilder.Named().At(LoadingRate.Impact), "no-impact").Refuses("no impact", "impact", "landings were allowed");

    [Fact]
    public void No_impact_lets_fast_work_pass() => Verify(ExerciseBuilder.Named().At(LoadingRate.Fast), "no-impact").Passes();

    [Fact]
    public void Quiet_refuses_what_is_loud() => Verify(Noise("loud"), "quiet").Refuses("quiet", "loud", "noise were allowed");

    [Fact]
    public void Quiet_refuses_a_landing_however_quiet_it_is_called() => Verify(ExerciseBuilder.Named().At(LoadingRate.Impact), "quiet").Refuses("quiet", "quiet", "noise");

    [Fact]
    public void Quiet_lets_moderate_noise_pass() => Verify(Noise("moderate"), "quiet").Passes();

    [Fact]
    public void Small_space_refuses_what_needs_more_floor()
    {
        var space = TestEdition.Knowledge.Defaults.SmallSpaceMetres;
        Verify(Space(space + 1), "small-space").Refuses(space, space + 1, "m of free floor");
        Verify(Space(space), "small-space").Passes();
    }

    [Fact]
    public void One_broken_limit_of_several_is_enough() => Verify(Noise("loud"), "no-impact", "small-space", "quiet").Refuses("quiet", "loud", "noise");

    private static ExerciseBuilder Noise(string noise) => ExerciseBuilder.Named().WithFacts(f => f with { Noise = noise });

    private static ExerciseBuilder Space(decimal metres) => ExerciseBuilder.Named().WithFacts(f => f with { SpaceMetres = metres });

    private static GateVerifier Verify(ExerciseBuilder exercise, params string[] limits) => GateVerifier.Of<SettingAllows>().Given(RequestBuilder.For().Limited(limits)).AskedAbout(exercise);
}
