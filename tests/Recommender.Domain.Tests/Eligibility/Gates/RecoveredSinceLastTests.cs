using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class RecoveredSinceLastTests
{
    private static readonly RecoveryWindow TwoDays = new("two-days", new ExerciseMatch(SorenessRiskAtLeast: 3), DaysBelow: 2, "the same family waits.", Basis.CommonPractice);
    private static readonly Exercise Hard = ExerciseBuilder.Named("hard").OfFamily("nordic").But(e => e with { SorenessRisk = 3 });

    [Fact]
    public void Asks_nothing_when_nothing_was_done() => Verify(RequestBuilder.For()).HasNothingToAsk();

    [Fact]
    public void Refuses_the_day_after() => Verify(RequestBuilder.For().Did("hard", 1)).Refuses(2, 1, "2 days or more had passed: the same family waits.");

    [Fact]
    public void Passes_once_the_days_are_over() => Verify(RequestBuilder.For().Did("hard", 2)).Passes();

    [Fact]
    public void Refuses_when_another_of_the_family_was_done() => Verify(RequestBuilder.For().Did("easy", 0)).Refuses(2, 0, "family");

    [Fact]
    public void The_last_time_counts() => Verify(RequestBuilder.For().Did("hard", 9).Did("easy", 1).Did("hard", 5)).Refuses(2, 1, "family");

    [Fact]
    public void Another_family_does_not_count() => Verify(RequestBuilder.For().Did("other", 0)).Passes();

    [Fact]
    public void Lets_easy_work_of_the_family_pass() =>
        GateVerifier.Of<RecoveredSinceLast>().Under(Rules).Given(RequestBuilder.For().Did("hard", 0)).AskedAbout(ExerciseBuilder.Named("easy").OfFamily("nordic"), Hard).Passes();

    private static KnowledgeBase Rules => TestEdition.Knowledge.With(peaking: new PeakingRules([], [TwoDays]));

    private static GateVerifier Verify(RequestBuilder request) =>
        GateVerifier.Of<RecoveredSinceLast>().Under(Rules).Given(request).AskedAbout(Hard, ExerciseBuilder.Named("easy").OfFamily("nordic"), ExerciseBuilder.Named("other"));
}
