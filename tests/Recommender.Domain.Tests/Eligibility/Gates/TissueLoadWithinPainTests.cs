using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class TissueLoadWithinPainTests
{
    private static readonly PainLimit Tendon = TestEdition.Knowledge.PainLimitOf("patellar-tendon")!;

    [Fact]
    public void Asks_nothing_without_a_complaint() => GateVerifier.Of<TissueLoadWithinPain>().HasNothingToAsk();

    [Fact]
    public void Refuses_when_the_upper_load_is_above_the_limit_at_this_pain_and_rate()
    {
        var limit = Tendon.MaxTissueLoad[LoadingRate.Fast][3];
        Verify(3, ExerciseBuilder.Named().At(LoadingRate.Fast).Loads("patellar-tendon", limit - 1, high: limit + 0.1m))
            .Refuses(limit, limit + 0.1m, $"the patellar tendon stood {limit + 0.1m:0.##} at this speed of loading; today's limit is {limit:0.##}");
    }

    [Fact]
    public void Passes_at_the_limit()
    {
        var limit = Tendon.MaxTissueLoad[LoadingRate.Fast][3];
        Verify(3, ExerciseBuilder.Named().At(LoadingRate.Fast).Loads("patellar-tendon", limit)).Passes();
    }

    [Fact]
    public void The_same_load_that_is_refused_fast_passes_slowly()
    {
        var load = Tendon.MaxTissueLoad[LoadingRate.Slow][3];
        Verify(3, ExerciseBuilder.Named().At(LoadingRate.Slow).Loads("patellar-tendon", load)).Passes();
        Verify(3, ExerciseBuilder.Named().At(LoadingRate.Impact).Loads("patellar-tendon", load)).Refuses(Tendon.MaxTissueLoad[LoadingRate.Impact][3], load, "patellar tendon");
    }

    [Fact]
    public void Lets_pass_what_does_not_load_the_region() => Verify(5, ExerciseBuilder.Named().At(LoadingRate.Impact).Loads("shoulder", 10)).Passes();

    [Fact]
    public void Tells_the_region_that_is_broken_by_most()
    {
        var request = RequestBuilder.For().Sore("patellar-tendon", 4).Sore("lower-back", 4);
        var back = TestEdition.Knowledge.PainLimitOf("lower-back")!.MaxTissueLoad[LoadingRate.Slow][4];
        GateVerifier.Of<TissueLoadWithinPain>().Given(request)
            .AskedAbout(ExerciseBuilder.Named().Loads("patellar-tendon", Tendon.MaxTissueLoad[LoadingRate.Slow][4] + 0.1m).Loads("lower-back", back + 2))
            .Refuses(back, back + 2, "lower back");
    }

    [Fact]
    public void The_stricter_of_two_complaints_of_one_region_holds() =>
        GateVerifier.Of<TissueLoadWithinPain>().Given(RequestBuilder.For().Sore("patellar-tendon", 1, "left").Sore("patellar-tendon", 5, "right"))
            .AskedAbout(ExerciseBuilder.Named().Loads("patellar-tendon", Tendon.MaxTissueLoad[LoadingRate.Slow][5] + 0.1m))
            .Refuses(Tendon.MaxTissueLoad[LoadingRate.Slow][5], Tendon.MaxTissueLoad[LoadingRate.Slow][5] + 0.1m, "patellar");

    [Fact]
    public void Leaves_a_barred_region_to_the_gate_of_referrals() =>
        GateVerifier.Of<TissueLoadWithinPain>().Given(RequestBuilder.For().Sore("patellar-tendon", 9)).AskedAbout(ExerciseBuilder.Named().Loads("patellar-tendon", 9)).Passes();

    [Fact]
    public void A_knee_is_held_as_tendon_and_as_joint()
    {
        var joint = TestEdition.Knowledge.PainLimitOf("patellofemoral")!.MaxTissueLoad[LoadingRate.Slow][3];
        GateVerifier.Of<TissueLoadWithinPain>().Given(RequestBuilder.For().Sore("knee", 3)).AskedAbout(ExerciseBuilder.Named().Loads("patellofemoral", joint + 0.1m)).Refuses(joint, joint + 0.1m, "kneecap");
        var tendon = Tendon.MaxTissueLoad[LoadingRate.Slow][3];
        GateVerifier.Of<TissueLoadWithinPain>().Given(RequestBuilder.For().Sore("knee", 3)).AskedAbout(ExerciseBuilder.Named().Loads("patellar-tendon", tendon + 0.1m)).Refuses(tendon, tendon + 0.1m, "patellar tendon");
    }

    private static GateVerifier Verify(int pain, Exercise exercise) => GateVerifier.Of<TissueLoadWithinPain>().Given(RequestBuilder.For().Sore("patellar-tendon", pain)).AskedAbout(exercise);
}
