using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class ReferredRegionSparedTests
{
    private static readonly decimal Spared = TestEdition.Knowledge.Pain.SparedLoad.Value;

    [Fact]
    public void Asks_nothing_without_a_referral() => GateVerifier.Of<ReferredRegionSpared>().Given(RequestBuilder.For().Sore("hamstring", 2)).HasNothingToAsk();

    [Fact]
    public void Refuses_what_loads_the_flagged_region() =>
        Verify(ExerciseBuilder.Named().Loads("hamstring", Spared, high: Spared + 0.1m)).Refuses(Spared, Spared + 0.1m, "a clinician had examined the hamstring");

    [Fact]
    public void Lets_pass_what_stays_at_the_spared_load() => Verify(ExerciseBuilder.Named().Loads("hamstring", Spared)).Passes();

    [Fact]
    public void Refuses_what_loads_a_neighbour()
    {
        var neighbour = TestEdition.Knowledge.Pain.RedFlagSpares["hamstring"][0];
        Verify(ExerciseBuilder.Named().Loads(neighbour, 3)).Refuses(Spared, 3m, "a clinician had examined");
    }

    [Fact]
    public void Lets_the_rest_of_the_body_pass() => Verify(ExerciseBuilder.Named().Loads("shoulder", 9)).Passes();

    [Fact]
    public void Counts_a_load_that_leans_on_another_region()
    {
        // The upper hamstring tendon has no load of its own here and so sees the hamstring's.
        GateVerifier.Of<ReferredRegionSpared>().Given(RequestBuilder.For().Sore("proximal-hamstring", 1, redFlags: "pop-or-gap"))
            .AskedAbout(ExerciseBuilder.Named().Loads("hamstring", 4)).Refuses(Spared, 4m, "clinician");
    }

    private static GateVerifier Verify(Exercise exercise) =>
        GateVerifier.Of<ReferredRegionSpared>().Given(RequestBuilder.For().Sore("hamstring", 1, redFlags: "pop-or-gap")).AskedAbout(exercise);
}
