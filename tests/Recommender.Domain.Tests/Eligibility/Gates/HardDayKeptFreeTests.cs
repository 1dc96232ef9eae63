using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Eligibility.Gates;

public sealed class HardDayKeptFreeTests
{
    private static readonly Exercise Heavy = ExerciseBuilder.Named("heavy").But(e => e with { LoadBand = LoadBand.Heavy });
    private static readonly ProtectedDay TwoDays = new("two-days", ["max-velocity"], 2, [new ExerciseMatch(LoadBands: [LoadBand.Heavy]), new ExerciseMatch(SorenessRiskAtLeast: 3)], "48 hours lie between.", Basis.CommonPractice);

    [Fact]
    public void Asks_nothing_without_a_hard_day() => Verify(Ahead("tempo", 1)).HasNothingToAsk();

    [Fact]
    public void Refuses_the_day_before() => Verify(Ahead("max-velocity", 1)).Refuses(2, 1, "top-speed work (tomorrow) were 2 days or more away: 48 hours lie between.");

    [Fact]
    public void Refuses_on_the_day_itself() => Verify(Ahead("max-velocity", 0)).Refuses(2, 0, "top-speed work (today)");

    [Fact]
    public void Passes_two_days_before() => Verify(Ahead("max-velocity", 2)).Passes();

    [Fact]
    public void Either_match_is_enough() =>
        GateVerifier.Of<HardDayKeptFree>().Under(Rules()).Given(Ahead("max-velocity", 1)).AskedAbout(ExerciseBuilder.Named("sore").But(e => e with { SorenessRisk = 3 })).Refuses(2, 1, "");

    [Fact]
    public void Lets_light_work_pass() => GateVerifier.Of<HardDayKeptFree>().Under(Rules()).Given(Ahead("max-velocity", 0)).AskedAbout(ExerciseBuilder.Named("light")).Passes();

    [Fact]
    public void Another_event_group_may_be_left_alone() => Verify(Ahead("max-velocity", 1), TwoDays with { EventGroups = ["throws"] }).HasNothingToAsk();

    [Fact]
    public void The_rule_that_asks_for_most_days_is_told() => Verify(Ahead("max-velocity", 1), TwoDays, TwoDays with { Id = "four", DaysBelow = 4, Note = "four." }).Refuses(4, 1, "four.");

    private static RecommendationRequest Ahead(string kind, int days) => RequestBuilder.For().Request with { Training = [new TrainingDay { Kind = kind, DaysFromToday = days }] };

    private static KnowledgeBase Rules(params ProtectedDay[] rules) => TestEdition.Knowledge.With(week: TestEdition.Knowledge.Week with { Protections = rules.Length == 0 ? [TwoDays] : rules });

    private static GateVerifier Verify(RecommendationRequest request, params ProtectedDay[] rules) => GateVerifier.Of<HardDayKeptFree>().Under(Rules(rules)).Given(request).AskedAbout(Heavy);
}
