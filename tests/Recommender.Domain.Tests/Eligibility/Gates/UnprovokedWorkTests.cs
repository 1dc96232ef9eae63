using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class UnprovokedWorkTests
{
    private static readonly RequestBuilder Athlete = RequestBuilder.Skilled().WeeksOut(20);

    [Fact]
    public void Asks_nothing_without_a_complaint() => GateVerifier.Of<UnprovokedWork>().HasNothingToAsk();

    [Fact]
    public void Asks_nothing_of_a_complaint_that_nothing_provokes() => GateVerifier.Of<UnprovokedWork>().Given(RequestBuilder.For().Sore("shoulder", 2)).HasNothingToAsk();

    [Fact]
    public void Refuses_what_the_complaint_is_provoked_by() =>
        GateVerifier.Of<UnprovokedWork>().Given(Provoked("patellar-tendon", "landing")).AskedAbout(ExerciseBuilder.Named().At(LoadingRate.Impact))
            .Refuses("no landings", "landings", "the patellar tendon were no longer provoked by it: landings");

    [Fact]
    public void Lets_pass_what_does_not_provoke_it() => GateVerifier.Of<UnprovokedWork>().Given(Provoked("patellar-tendon", "landing")).AskedAbout(ExerciseBuilder.Named().At(LoadingRate.Fast)).Passes();

    [Fact]
    public void A_bend_is_deep_from_its_angle_on_and_only_under_load()
    {
        Bend(100, 5).Refuses("no knee bent past a right angle under load", "knee bent past a right angle under load", "patellar tendon");
        Bend(99, 5).Passes();
        Bend(100, 1).Passes();

        static GateVerifier Bend(decimal degrees, decimal load) => GateVerifier.Of<UnprovokedWork>().Given(Provoked("patellar-tendon", "deep-knee-bend"))
            .AskedAbout(ExerciseBuilder.Named().WithFacts(f => f with { KneeFlexionDeg = degrees }).Loads("patellar-tendon", load));
    }

    [Theory]
    [InlineData("lower-back", "back-flexion", "romanian-deadlift,curl-up,good-morning,squat-to-stand", "front-plank,bird-dog,side-plank,hip-thrust")]
    [InlineData("lower-back", "back-extension", "prone-press-up,back-extension,overhead-press,reverse-back-extension", "dead-bug,side-plank,trap-bar-deadlift,curl-up")]
    [InlineData("lower-back", "rotation", "rotational-scoop-throw,standing-band-rotation,landmine-rotation,hanging-leg-turn", "anti-rotation-press-hold,front-plank,deadlift,bird-dog")]
    [InlineData("shoulder", "overhead", "overhead-press,pull-up,lat-pulldown,power-snatch,javelin-style-throw", "push-up,cable-row,band-external-rotation,floor-press")]
    [InlineData("hip", "deep-hip-bend", "back-squat,deadlift,deep-squat-hold", "hip-hitch,side-plank,half-squat-bodyweight,single-leg-calf-raise")]
    [InlineData("hamstring", "end-range-stretch", "romanian-deadlift,hamstring-sweep,good-morning", "hamstring-bridge,band-leg-curl,half-squat")]
    [InlineData("achilles-calf", "end-range-stretch", "single-leg-step-calf-raise,soleus-stretch,wall-calf-stretch", "isometric-calf-hold,double-leg-calf-raise,single-leg-calf-raise")]
    [InlineData("achilles-insertion", "compression", "single-leg-step-calf-raise,donkey-calf-raise,soleus-stretch", "double-leg-calf-raise,isometric-calf-hold,seated-soleus-raise")]
    [InlineData("proximal-hamstring", "compression", "romanian-deadlift,deep-squat-hold", "hamstring-bridge,prone-leg-curl-hold")]
    [InlineData("hamstring", "fast-running", "wicket-run,hill-sprint,alternate-leg-bound", "pogo-hops,kettlebell-swing,sled-push")]
    [InlineData("patellar-tendon", "landing", "countermovement-jump,snap-down,a-skip", "power-clean,spanish-squat,back-squat")]
    public void Holds_what_a_coach_would_leave_out_and_keeps_what_he_would_keep(string region, string by, string held, string kept)
    {
        // Common practice, no source.
        var context = Stages.Of(Athlete.Complaining(new Complaint { Region = region, Pain = 0, ProvokedBy = [by] })).GateContext;
        var gate = new UnprovokedWork();
        Assert.All(held.Split(','), id => Assert.True(gate.Refuses(context, Position(id)), $"{id} is let pass."));
        Assert.All(kept.Split(','), id => Assert.False(gate.Refuses(context, Position(id)), $"{id} is held."));
    }

    [Fact]
    public void A_sit_bone_keeps_from_the_deep_hip_bend_at_first()
    {
        // Common practice, no source: the deep bend presses the tendon on the bone.
        var gate = new UnprovokedWork();
        var first = Stages.Of(Athlete.Sore("proximal-hamstring", 3)).GateContext;
        Assert.All(["romanian-deadlift", "good-morning", "back-squat", "kettlebell-swing"], id => Assert.True(gate.Refuses(first, Position(id)), id));
        Assert.All(["single-leg-hip-thrust-hold", "hamstring-bridge", "swiss-ball-leg-curl"], id => Assert.False(gate.Refuses(first, Position(id)), id));
        var later = Stages.Of(Athlete.Complaining(new Complaint { Region = "proximal-hamstring", Pain = 1, Stage = "energy-storage" })).GateContext;
        Assert.False(gate.Asks(later) && gate.Refuses(later, Position("single-leg-romanian-deadlift")));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void An_insertion_keeps_its_heel_above_the_step(int pain)
    {
        // Common practice, no source.
        var gate = new UnprovokedWork();
        var context = Stages.Of(Athlete.Sore("achilles-insertion", pain)).GateContext;
        Assert.All(["single-leg-step-calf-raise", "loaded-calf-raise", "donkey-calf-raise"], id => Assert.True(gate.Refuses(context, Position(id)), id));
        Assert.All(["double-leg-calf-raise", "single-leg-calf-raise", "isometric-calf-hold"], id => Assert.False(gate.Refuses(context, Position(id)), id));
        Assert.False(gate.Asks(Stages.Of(Athlete.Sore("achilles-calf", pain)).GateContext) && gate.Refuses(Stages.Of(Athlete.Sore("achilles-calf", pain)).GateContext, Position("single-leg-step-calf-raise")));
    }

    [Fact]
    public void A_sudden_injury_is_neither_lengthened_nor_loaded_fast_until_it_was_assessed()
    {
        var request = Athlete.Complaining(new Complaint { Region = "hamstring", Pain = 2, Tissue = "muscle", Onset = "sudden", DaysSinceOnset = 1 });
        var stages = Stages.Of(request);
        Assert.Equal(["hamstring"], stages.Limits.Referral!.Regions);
        var eligible = stages.EligibleIds();
        foreach (var exercise in TestEdition.Current.Catalogue.Exercises.Where(e => eligible.Contains(e.Id)))
        {
            var load = ExerciseCatalogue.LoadOn(exercise, TestEdition.Vocabulary.Regions.Find("hamstring")!)?.High ?? 0;
            Assert.True(load < 0.4m || (exercise.LoadingRate <= LoadingRate.Slow && exercise.Contraction is not ("eccentric" or "passive") && load <= TestEdition.Knowledge.Pain.SparedLoad.Value), exercise.Id);
        }
    }

    private static RequestBuilder Provoked(string region, string by) => RequestBuilder.For().Complaining(new Complaint { Region = region, Pain = 0, ProvokedBy = [by] });

    private static int Position(string id) => TestEdition.Current.Catalogue.PositionOf(TestEdition.Exercise(id).Id);
}
