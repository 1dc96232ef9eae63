using Recommender.Domain.Requests;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Requests;

public sealed class RequestChecksTests
{
    private static readonly RequestBuilder Good = RequestBuilder.For();

    /// <summary>Pointer, code, and a part of the message that says what would be right.</summary>
    private static readonly (string Pointer, string Code, string Says, RecommendationRequest Request)[] Wrong =
    [
        ("/athlete", "required", "athlete.eventGroup", Good.But(r => r with { Athlete = null })),
        ("/athlete/eventGroup", "required", "or athlete.event", Good.Athlete(a => a with { EventGroup = null })),
        ("/phase", "required", "general-preparation", Good.But(r => r with { Phase = null })),
        ("/phase", "unknown-id", "\"off-season\" is not a known phase; give one of general-preparation", Good.During("off-season")),
        ("/weeksToCompetition", "out-of-range", "weeksToCompetition is 60.5; give 0 to 60 weeks.", Good.WeeksOut(60.5m)),
        ("/weeksToCompetition", "out-of-range", "is -1; give 0", Good.WeeksOut(-1)),
        ("/athlete/ref", "out-of-range", "1 to 100", Good.Athlete(a => a with { Ref = "" })),
        ("/athlete/ref", "out-of-range", "1 to 100", Good.Athlete(a => a with { Ref = new string('x', 101) })),
        ("/perFamily", "out-of-range", "perFamily is 11; give 1 to 10 picks of one family.", Good.But(r => r with { PerFamily = 11 })),
        ("/coach", "out-of-range", "1 to 100", Good.But(r => r with { Coach = "" })),
        ("/athlete/ref", "out-of-range", "control", Good.Athlete(a => a with { Ref = "a\nb" })),
        ("/athlete/eventGroup", "unknown-id", "sprints, distance, jumps", RequestBuilder.For("swims")),
        ("/athlete/event", "unknown-id", "GET /v1/vocabulary", Good.Doing("long-swim")),
        ("/athlete/event", "contradiction", "its group is throws", Good.Doing("javelin")),
        ("/athlete/ageYears", "out-of-range", "is 4; give 5 to 100 years", Good.Aged(4)),
        ("/athlete/trainingAgeYears", "out-of-range", "0 to 80", Good.Trained(-0.1m)),
        ("/athlete/trainingAgeYears", "contradiction", "training age 15 is above age 14", Good.Aged(14, 15)),
        ("/athlete/sex", "unknown-id", "female, male", Good.Athlete(a => a with { Sex = "x" })),
        ("/athlete/bodyMassKg", "out-of-range", "20 to 250 kg", Good.Athlete(a => a with { BodyMassKg = 19.9m })),
        ("/athlete/statureCm", "out-of-range", "100 to 250 cm", Good.Athlete(a => a with { StatureCm = 251 })),
        ("/athlete/oneRepMaxKg/no~1such~0lift", "unknown-id", "not an exercise", Good.Lifting("no/such~lift", 100)),
        ("/athlete/oneRepMaxKg/back-squat", "out-of-range", "1 to 600 kg", Good.Lifting("back-squat", 601)),
        ("/athlete/oneRepMaxKg", "too-many", "at most 200", Good.Athlete(a => a with { OneRepMaxKg = TestEdition.Current.Catalogue.Exercises.Take(201).ToDictionary(e => e.Id, _ => 50m) })),
        ("/athlete/competence/1", "unknown-id", "barbell-lifts", Good.Knowing("barbell-lifts", "flying")),
        ("/athlete/takeOffLeg", "unknown-id", "left, right", Good.Athlete(a => a with { TakeOffLeg = "both" })),
        ("/athlete/leadLeg", "unknown-id", "left, right", Good.Athlete(a => a with { LeadLeg = "both" })),
        ("/athlete/throwingSide", "unknown-id", "left, right", Good.Athlete(a => a with { ThrowingSide = "over" })),
        ("/athlete/startFrontFoot", "unknown-id", "left, right", Good.Athlete(a => a with { StartFrontFoot = "" })),
        ("/setting/place", "unknown-id", "club-gym", Good.In("moon")),
        ("/setting/equipment/0", "unknown-id", "\"chair\"", Good.With("chair")),
        ("/setting/equipment", "too-many", "at most 100", Good.With([.. Enumerable.Repeat("band", 101)])),
        ("/setting/minutes", "out-of-range", "1 to 600 minutes", Good.InMinutes(0.5m)),
        ("/setting/limits/0", "unknown-id", "small-space", Good.Limited("dark")),
        ("/complaints", "too-many", "13 entries; give at most 12", Repeat(13, Good, b => b.Sore("hamstring", 1))),
        ("/complaints/0", "required", "null", Good.But(r => r with { Complaints = [null!] })),
        ("/complaints/0/region", "required", "region is missing", Good.But(r => r with { Complaints = [new Complaint { Pain = 2 }] })),
        ("/complaints/0/region", "unknown-id", "\"tail\"", Good.Sore("tail", 2)),
        ("/complaints/0/side", "unknown-id", "left, right, both", Good.Sore("hamstring", 2, "middle")),
        ("/complaints/0/pain", "required", "0 to 10", Good.But(r => r with { Complaints = [new Complaint { Region = "hamstring" }] })),
        ("/complaints/0/pain", "out-of-range", "pain is 11; give 0 to 10.", Good.Sore("hamstring", 11)),
        ("/complaints/1/pain", "out-of-range", "pain is -1", Good.Sore("hamstring", 1).Sore("hip", -1)),
        ("/complaints/0/nextMorning", "unknown-id", "settled, same, worse", Good.Sore("hamstring", 2, nextMorning: "better")),
        ("/complaints/0/redFlags/1", "unknown-id", "red flag", Good.Sore("hamstring", 2, redFlags: ["pop-or-gap", "bad-mood"])),
        ("/complaints/0/note", "out-of-range", "501 characters; give at most 500", Good.But(r => r with { Complaints = [new Complaint { Region = "hamstring", Pain = 1, Note = new string('x', 501) }] })),
        ("/redFlags/0", "unknown-id", "GET /v1/vocabulary", Good.Flagged("bad-mood")),
        ("/needs", "too-many", "at most 30", Repeat(31, Good, b => b.Wanting("grip"))),
        ("/needs/0/quality", "required", "quality is missing", Good.But(r => r with { Needs = [new CoachNeed()] })),
        ("/needs/0/quality", "unknown-id", "\"charm\"", Good.Wanting("charm")),
        ("/needs/0/importance", "unknown-id", "low, medium, high", Good.Wanting("grip", "huge")),
        ("/needs/0/weight", "out-of-range", "0 to 1", Good.Weighing("grip", 1.1m)),
        ("/needs/0/weight", "contradiction", "give one of them", Good.But(r => r with { Needs = [new CoachNeed { Quality = "grip", Importance = "low", Weight = 0.2m }] })),
        ("/recent", "too-many", "at most 200", Repeat(201, Good, b => b.Did("back-squat", 1))),
        ("/recent/0/exercise", "required", "exercise is missing", Good.But(r => r with { Recent = [new RecentWork { DaysAgo = 1 }] })),
        ("/recent/0/exercise", "unknown-id", "not an exercise", Good.Did("sit-around", 1)),
        ("/recent/0/daysAgo", "required", "0 to 365", Good.But(r => r with { Recent = [new RecentWork { Exercise = "back-squat" }] })),
        ("/recent/0/daysAgo", "out-of-range", "0 to 365 days", Good.Did("back-squat", 366)),
        ("/recent/0/sets", "out-of-range", "1 to 50 sets", Good.But(r => r with { Recent = [new RecentWork { Exercise = "back-squat", DaysAgo = 1, Sets = 0 }] })),
        ("/recent/0/amount", "out-of-range", "0.1 to 10000", Good.But(r => r with { Recent = [new RecentWork { Exercise = "back-squat", DaysAgo = 1, Amount = 0 }] })),
        ("/recent/0/unit", "unknown-id", "reps", Good.But(r => r with { Recent = [new RecentWork { Exercise = "back-squat", DaysAgo = 1, Unit = "miles" }] })),
        ("/exclude/0", "unknown-id", "\"sit-around\"", Good.Without("sit-around")),
        ("/exclude", "too-many", "at most 1000", Good.Without([.. Enumerable.Repeat("back-squat", 1001)])),
        ("/only/support/0", "unknown-id", "off-feet", Good.Only(new OnlyFilter { Support = ["triple"] })),
        ("/only/pattern/0", "unknown-id", "pattern", Good.Only(new OnlyFilter { Pattern = ["dance"] })),
        ("/only/quality/0", "unknown-id", "quality", Good.Only(new OnlyFilter { Quality = ["charm"] })),
        ("/only/loadingRate/0", "unknown-id", "impact", Good.Only(new OnlyFilter { LoadingRate = ["warp"] })),
        ("/count", "out-of-range", "count is 0; give 1 to 30", Good.Count(0)),
        ("/count", "out-of-range", "is 31", Good.Count(31)),
        ("/tests/counterMovementJumpCm", "impossible-value", "is not possible; give", Good.Tested(new TestResults { CounterMovementJumpCm = 500 })),
        ("/tests/kneeToWallCm/right", "impossible-value", "is not possible; give", Good.Tested(new TestResults { KneeToWallCm = new(10, 99) })),
        ("/tests/dropJump/contactMs", "impossible-value", "is not possible; give", Good.Tested(new TestResults { DropJump = new(ContactMs: 1) })),
        ("/tests/singleLegSquatRating/left", "unknown-id", "good, fair, poor", Good.Tested(new TestResults { SingleLegSquatRating = new("superb") })),
        ("/tests/sprintStart", "unknown-id", "first-movement, gate, gun", Good.Tested(new TestResults { SprintStart = "shout" })),
        ("/tests/testPain", "out-of-range", "0 to 10", Good.Tested(new TestResults { TestPain = 11 })),
        ("/tests/daysAgo", "out-of-range", "0 to 3650 days", Good.Tested(new TestResults { DaysAgo = 3651 })),
        ("/tests/trials", "out-of-range", "1 to 50 trials", Good.Tested(new TestResults { Trials = 0 })),
        ("/tests/sprintSplits/0/seconds", "impossible-value", "faster than 13 m/s", Good.Tested(new TestResults { SprintSplits = [new(10, 0.7m)] })),
        ("/tests/sprintSplits/0/seconds", "impossible-value", "time since the start", Good.Tested(new TestResults { SprintSplits = [new(20, 1.8m), new(10, 1.9m)] })),
        ("/tests/loadedJumps/0/loadKg", "out-of-range", "0 to 400 kg", Good.Tested(new TestResults { LoadedJumps = [new(401, 30)] })),
        ("/tests/loadedJumps/0/heightCm", "out-of-range", "1 to 100 cm", Good.Tested(new TestResults { LoadedJumps = [new(20, 0)] })),
        ("/tests/loadedJumps", "too-many", "at most 20", Good.Tested(new TestResults { LoadedJumps = [.. Enumerable.Repeat(new LoadedJump(20, 30), 21)] })),
        ("/tests/sprintSplits/0/distanceM", "out-of-range", "1 to 400 m", Good.Tested(new TestResults { SprintSplits = [new(0, 1)] })),
        ("/tests/sprintSplits/0/seconds", "out-of-range", "0.1 to 120 s", Good.Tested(new TestResults { SprintSplits = [new(10, 0)] })),
        ("/tests/repetitionsToFailure/sit-around", "unknown-id", "not an exercise", Good.Tested(new TestResults { RepetitionsToFailure = new Dictionary<string, LiftToFailure> { ["sit-around"] = new(50, 5) } })),
        ("/tests/repetitionsToFailure/back-squat/repetitions", "out-of-range", "1 to 30 repetitions", Good.Tested(new TestResults { RepetitionsToFailure = new Dictionary<string, LiftToFailure> { ["back-squat"] = new(50, 31) } })),
        ("/tests/yBalance/legLengthCm", "out-of-range", "40 to 140 cm", Good.Tested(new TestResults { YBalance = new(LegLengthCm: 20) })),
        ("/tests/yBalance/left/anteriorCm", "out-of-range", "1 to 160 cm", Good.Tested(new TestResults { YBalance = new(Left: new(AnteriorCm: 0)) })),
    ];

    public static TheoryData<int> Cases => [.. Enumerable.Range(0, Wrong.Length)];

    [Theory]
    [MemberData(nameof(Cases))]
    public void A_wrong_field_is_named_with_its_code_and_what_would_be_right(int which)
    {
        var (pointer, code, says, request) = Wrong[which];
        var fault = Assert.Single(Of(request));
        Assert.Equal((pointer, code), (fault.Pointer, fault.Code));
        Assert.Contains(says, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_request_that_says_as_little_as_possible_has_no_faults() => Assert.Empty(Of(Good));

    [Fact]
    public void The_event_alone_is_enough() => Assert.Empty(Of(Good.Athlete(a => a with { EventGroup = null, Event = "javelin" })));

    [Fact]
    public void The_edges_of_every_range_are_inside() =>
        Assert.Empty(Of(Good.Aged(100, 80).WeeksOut(60).Count(30).InMinutes(600).Sore("knee", 10).Sore("hip", 0).Weighing("grip", 1).Weighing("grip", 0).Did("back-squat", 365).Lifting("back-squat", 600)));

    [Fact]
    public void Trunk_control_is_a_quality_to_ask_for() => Assert.Empty(Of(Good.Wanting("trunk-control").Only(new OnlyFilter { Quality = ["trunk-control"] })));

    [Fact]
    public void All_faults_are_told_at_once_in_the_order_of_the_body()
    {
        var faults = Of(Good.Aged(4).During("off-season").In("moon").Sore("tail", 11).Count(99));
        Assert.Equal(["/athlete/ageYears", "/phase", "/setting/place", "/complaints/0/region", "/complaints/0/pain", "/count"], faults.Select(f => f.Pointer));
    }

    [Fact]
    public void A_long_unknown_id_is_cut_in_the_message() => Assert.True(Assert.Single(Of(Good.Without(new string('x', 5000)))).Message.Length < 200);

    [Fact]
    public void Every_code_of_the_checks_is_seen_here() =>
        Assert.Equal(["contradiction", "impossible-value", "out-of-range", "required", "too-many", "unknown-id"], Wrong.Select(w => w.Code).Distinct().Order(StringComparer.Ordinal));

    private static IReadOnlyList<Fault> Of(RecommendationRequest request) => RequestChecks.Of(request, TestEdition.Current.Catalogue, TestEdition.Knowledge);

    private static RequestBuilder Repeat(int times, RequestBuilder start, Func<RequestBuilder, RequestBuilder> add) => Enumerable.Range(0, times).Aggregate(start, (b, _) => add(b));
}
