using Recommender.Domain.Requests;

namespace Recommender.Testing;

/// <summary>A request that says as little as possible; each call adds one thing. Immutable, so that a start can be shared.</summary>
public sealed record RequestBuilder
{
    private RequestBuilder(RecommendationRequest request) => Request = request;

    /// <summary>The request so far.</summary>
    public RecommendationRequest Request { get; private init; }

    /// <summary>Event group and phase, and nothing else.</summary>
    public static RequestBuilder For(string eventGroup = "jumps", string phase = "specific-preparation") =>
        new(new RecommendationRequest { Athlete = new AthleteFacts { EventGroup = eventGroup }, Phase = phase });

    /// <summary>A grown, skilled athlete in a full gym with everything: what is refused then, is refused for another reason.</summary>
    public static RequestBuilder Skilled(string eventGroup = "jumps", string phase = "specific-preparation") =>
        For(eventGroup, phase)
            .Aged(25, trained: 8)
            .Knowing([.. TestEdition.Vocabulary.Competences.Select(c => c.Id)])
            .In("full-gym", [.. TestEdition.Vocabulary.Equipment.Select(e => e.Id)]);

    /// <summary>Any change.</summary>
    public RequestBuilder But(Func<RecommendationRequest, RecommendationRequest> change) => new(change(Request));

    /// <summary>A change of the athlete's facts.</summary>
    public RequestBuilder Athlete(Func<AthleteFacts, AthleteFacts> change) => But(r => r with { Athlete = change(r.Athlete!) });

    /// <summary>The event.</summary>
    public RequestBuilder Doing(string eventId) => Athlete(a => a with { Event = eventId });

    /// <summary>Age, and training age where given.</summary>
    public RequestBuilder Aged(int years, decimal? trained = null) => Athlete(a => a with { AgeYears = years, TrainingAgeYears = trained ?? a.TrainingAgeYears });

    /// <summary>Training age.</summary>
    public RequestBuilder Trained(decimal years) => Athlete(a => a with { TrainingAgeYears = years });

    /// <summary>Competences; none when none are named.</summary>
    public RequestBuilder Knowing(params string[] competences) => Athlete(a => a with { Competence = competences });

    /// <summary>A known one-repetition maximum.</summary>
    public RequestBuilder Lifting(string exercise, decimal kg) =>
        Athlete(a => a with { OneRepMaxKg = new Dictionary<string, decimal>(a.OneRepMaxKg ?? new Dictionary<string, decimal>(), StringComparer.Ordinal) { [exercise] = kg } });

    /// <summary>Phase.</summary>
    public RequestBuilder During(string phase) => But(r => r with { Phase = phase });

    /// <summary>Weeks to the competition.</summary>
    public RequestBuilder WeeksOut(decimal weeks) => But(r => r with { WeeksToCompetition = weeks });

    /// <summary>Place, with its usual equipment.</summary>
    public RequestBuilder In(string place) => Setting(s => s with { Place = place });

    /// <summary>Place and what is there.</summary>
    public RequestBuilder In(string place, string[] equipment) => Setting(s => s with { Place = place, Equipment = equipment });

    /// <summary>What is at hand; nothing when nothing is named.</summary>
    public RequestBuilder With(params string[] equipment) => Setting(s => s with { Equipment = equipment });

    /// <summary>Limits of the setting.</summary>
    public RequestBuilder Limited(params string[] limits) => Setting(s => s with { Limits = limits });

    /// <summary>Minutes for a single pick.</summary>
    public RequestBuilder InMinutes(decimal minutes) => Setting(s => s with { Minutes = minutes });

    /// <summary>A complaint.</summary>
    public RequestBuilder Sore(string region, int pain, string? side = "both", string? nextMorning = "same", params string[] redFlags) =>
        But(r => r with { Complaints = [.. r.Complaints ?? [], new Complaint { Region = region, Pain = pain, Side = side, NextMorning = nextMorning, RedFlags = redFlags.Length == 0 ? null : redFlags }] });

    /// <summary>A complaint as it is, with any of its fields.</summary>
    public RequestBuilder Complaining(Complaint complaint) => But(r => r with { Complaints = [.. r.Complaints ?? [], complaint] });

    /// <summary>A change of the last complaint.</summary>
    public RequestBuilder LastComplaint(Func<Complaint, Complaint> change) => But(r => r with { Complaints = [.. r.Complaints!.SkipLast(1), change(r.Complaints![^1])] });

    /// <summary>What a clinician wrote.</summary>
    public RequestBuilder Restricted(Restriction restriction) => Athlete(a => a with { Restrictions = [.. a.Restrictions ?? [], restriction] });

    /// <summary>A clearance.</summary>
    public RequestBuilder Cleared(string flag, int daysAgo) => Athlete(a => a with { Clearances = [.. a.Clearances ?? [], new Clearance { Flag = flag, By = "team doctor", DaysAgo = daysAgo }] });

    /// <summary>An earlier injury.</summary>
    public RequestBuilder HurtBefore(string region, int monthsAgo, bool surgery = false) =>
        Athlete(a => a with { History = [.. a.History ?? [], new EarlierInjury { Region = region, MonthsAgo = monthsAgo, Surgery = surgery }] });

    /// <summary>Red flags outside any complaint.</summary>
    public RequestBuilder Flagged(params string[] redFlags) => But(r => r with { RedFlags = redFlags });

    /// <summary>A need of the coach by importance; medium unasked when it is null.</summary>
    public RequestBuilder Wanting(string quality, string? importance = "high") => But(r => r with { Needs = [.. r.Needs ?? [], new CoachNeed { Quality = quality, Importance = importance }] });

    /// <summary>A need of the coach by weight.</summary>
    public RequestBuilder Weighing(string quality, decimal weight) => But(r => r with { Needs = [.. r.Needs ?? [], new CoachNeed { Quality = quality, Weight = weight }] });

    /// <summary>Test results.</summary>
    public RequestBuilder Tested(TestResults tests) => But(r => r with { Tests = tests });

    /// <summary>Work done lately.</summary>
    public RequestBuilder Did(string exercise, int daysAgo) => But(r => r with { Recent = [.. r.Recent ?? [], new RecentWork { Exercise = exercise, DaysAgo = daysAgo }] });

    /// <summary>Exercises not wanted.</summary>
    public RequestBuilder Without(params string[] exercises) => But(r => r with { Exclude = exercises });

    /// <summary>Only exercises of these kinds.</summary>
    public RequestBuilder Only(OnlyFilter only) => But(r => r with { Only = only });

    /// <summary>How many picks.</summary>
    public RequestBuilder Count(int count) => But(r => r with { Count = count });

    /// <summary>The request.</summary>
    public static implicit operator RecommendationRequest(RequestBuilder builder) => builder.Request;

    /// <summary>The request.</summary>
    public RecommendationRequest ToRecommendationRequest() => Request;

    private RequestBuilder Setting(Func<SettingFacts, SettingFacts> change) => But(r => r with { Setting = change(r.Setting ?? new SettingFacts()) });
}
