using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class OutsidePeakingWindowTests
{
    private static readonly PeakingWindow Sore = new("sore", null, WeeksBelow: 2, new ExerciseMatch(SorenessRiskAtLeast: 3), UnlessDoneWithinDays: 14, "soreness is still felt.", Basis.CommonPractice);
    private static readonly Exercise SoreMaker = ExerciseBuilder.Named().But(e => e with { SorenessRisk = 3 });

    [Fact]
    public void Refuses_inside_the_window() => Verify(RequestBuilder.For().WeeksOut(1.9m)).Refuses(2m, 1.9m, "2 weeks or more were left, or had it been done in the last 14 days: soreness is still felt.");

    [Fact]
    public void Passes_on_the_edge_of_the_window() => Verify(RequestBuilder.For().WeeksOut(2)).HasNothingToAsk();

    [Fact]
    public void Lets_other_work_pass() => Verify(RequestBuilder.For().WeeksOut(1), exercise: ExerciseBuilder.Named().But(e => e with { SorenessRisk = 2 })).Passes();

    [Fact]
    public void Familiar_work_goes_on() => Verify(RequestBuilder.For().WeeksOut(1).Did("plain", 14)).Passes();

    [Fact]
    public void Work_done_too_long_ago_is_new_again() => Verify(RequestBuilder.For().WeeksOut(1).Did("plain", 15)).Refuses(2m, 1m, "soreness");

    [Fact]
    public void Another_of_the_family_does_not_make_it_familiar() => Verify(RequestBuilder.For().WeeksOut(1).Did("sister", 3)).Refuses(2m, 1m, "soreness");

    [Fact]
    public void Familiar_work_is_refused_too_where_the_rule_says_so() =>
        Verify(RequestBuilder.For().WeeksOut(1).Did("plain", 1), Sore with { UnlessDoneWithinDays = null }).Refuses(2m, 1m, "2 weeks or more were left: soreness");

    [Fact]
    public void Holds_only_for_the_event_groups_it_names() => Verify(RequestBuilder.For("jumps").WeeksOut(1), Sore with { EventGroups = ["throws"] }).HasNothingToAsk();

    [Fact]
    public void Weeks_come_from_the_phase_where_they_are_left_out()
    {
        var weeks = TestEdition.Knowledge.Defaults.WeeksByPhase[(int)Phase.Taper];
        Verify(RequestBuilder.For(phase: "taper"), Sore with { WeeksBelow = weeks }).Passes();
        Verify(RequestBuilder.For(phase: "taper"), Sore with { WeeksBelow = weeks + 0.1m }).Refuses(weeks + 0.1m, weeks, "soreness");
    }

    private static GateVerifier Verify(RequestBuilder request, PeakingWindow? window = null, Exercise? exercise = null) =>
        GateVerifier.Of<OutsidePeakingWindow>().Under(TestEdition.Knowledge.With(peaking: new PeakingRules([window ?? Sore], []))).Given(request)
            .AskedAbout(exercise ?? SoreMaker, ExerciseBuilder.Named("sister").OfFamily("plain"));
}
