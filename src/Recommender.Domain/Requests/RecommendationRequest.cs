using System.Text.Json.Serialization;

namespace Recommender.Domain.Requests;

/// <summary>A request as it was sent. What is null was left out; the answer's <c>assumed</c> lists what was taken instead.</summary>
public sealed record RecommendationRequest
{
    /// <summary>The athlete. Required, with at least <c>eventGroup</c> or <c>event</c>.</summary>
    public AthleteFacts? Athlete { get; init; }

    /// <summary>Phase id. Required; it sets the emphasis.</summary>
    public string? Phase { get; init; }

    /// <summary>Weeks to the competition, 0 to 60; they set the peaking gates. Left out: the phase's usual.</summary>
    public decimal? WeeksToCompetition { get; init; }

    /// <summary>Competitions ahead, instead of the weeks; at most 20.</summary>
    public IReadOnlyList<Competition>? Competitions { get; init; }

    /// <summary>build, hold or unload.</summary>
    public string? WeekKind { get; init; }

    /// <summary>The rest of the week; at most 60.</summary>
    public IReadOnlyList<TrainingDay>? Training { get; init; }

    /// <summary>The coach who asks: an id of the caller's own, 1 to 100 printable characters. It is kept with the decision. Of the answer it changes only the lean to what this coach chose, once enough was learned.</summary>
    public string? Coach { get; init; }

    /// <summary>metric or us; for display only, the answer stays in kilograms.</summary>
    public string? Units { get; init; }

    /// <summary>Where it is done and with what.</summary>
    public SettingFacts? Setting { get; init; }

    /// <summary>What hurts; at most 12.</summary>
    public IReadOnlyList<Complaint>? Complaints { get; init; }

    /// <summary>General red flags; those of a body part go with its complaint.</summary>
    public IReadOnlyList<string>? RedFlags { get; init; }

    /// <summary>What the coach wants built; at most 30.</summary>
    public IReadOnlyList<CoachNeed>? Needs { get; init; }

    /// <summary>Test results; every test is optional.</summary>
    public TestResults? Tests { get; init; }

    /// <summary>What was done lately; at most 200.</summary>
    public IReadOnlyList<RecentWork>? Recent { get; init; }

    /// <summary>How hard the last sessions were felt; at most 60.</summary>
    public IReadOnlyList<SessionRating>? SessionRatings { get; init; }

    /// <summary>Exercise ids not wanted; at most 1,000.</summary>
    public IReadOnlyList<string>? Exclude { get; init; }

    /// <summary>Only exercises of these kinds.</summary>
    public OnlyFilter? Only { get; init; }

    /// <summary>How many picks, 1 to 30. Left out: 6.</summary>
    public int? Count { get; init; }

    /// <summary>How many picks may come from one variant family, 1 to 10. Left out: 1. Recommendations alone ask: a substitution may offer several anyway, a session holds one.</summary>
    public int? PerFamily { get; init; }

    /// <summary>What was read from the store for this request; never sent, and kept apart in the record. Null stands for nothing.</summary>
    [JsonIgnore]
    public FactsRead? Read { get; init; }
}

/// <summary>Facts about the athlete.</summary>
public sealed record AthleteFacts
{
    /// <summary>The caller's own reference, 1 to 100 printable characters, not . or .. alone, since it stands in addresses. Kept apart from the record's hashed body.</summary>
    public string? Ref { get; init; }

    /// <summary>Event group id.</summary>
    public string? EventGroup { get; init; }

    /// <summary>Event id. Left out: the group's usual.</summary>
    public string? Event { get; init; }

    /// <summary>Age in years, 5 to 100. Left out: an adult.</summary>
    public int? AgeYears { get; init; }

    /// <summary>Years of strength training, 0 to 80. Left out: a novice.</summary>
    public decimal? TrainingAgeYears { get; init; }

    /// <summary>female or male; used only where a published norm differs by sex.</summary>
    public string? Sex { get; init; }

    /// <summary>Body mass, 20 to 250 kg.</summary>
    public decimal? BodyMassKg { get; init; }

    /// <summary>Stature, 100 to 250 cm.</summary>
    public decimal? StatureCm { get; init; }

    /// <summary>Exercise id to one-repetition maximum, 1 to 600 kg, whole load with bar.</summary>
    public IReadOnlyDictionary<string, decimal>? OneRepMaxKg { get; init; }

    /// <summary>Competence ids the athlete has; empty means none. Left out: taken from training age.</summary>
    public IReadOnlyList<string>? Competence { get; init; }

    /// <summary>left or right; the leg that leaves the ground last in jumps.</summary>
    public string? TakeOffLeg { get; init; }

    /// <summary>left or right; the leg that crosses a hurdle first.</summary>
    public string? LeadLeg { get; init; }

    /// <summary>left or right.</summary>
    public string? ThrowingSide { get; init; }

    /// <summary>left or right; the foot in the front block.</summary>
    public string? StartFrontFoot { get; init; }

    /// <summary>What clinicians wrote; at most 20.</summary>
    public IReadOnlyList<Restriction>? Restrictions { get; init; }

    /// <summary>Clearances for general flags; at most 10.</summary>
    public IReadOnlyList<Clearance>? Clearances { get; init; }

    /// <summary>Regions that were hurt before; at most 30.</summary>
    public IReadOnlyList<EarlierInjury>? History { get; init; }

    /// <summary>Time off training that has just ended.</summary>
    public LayoffFacts? Layoff { get; init; }

    /// <summary>True in a growth spurt: the rules for growing athletes hold. Left out: no.</summary>
    public bool? GrowthSpurt { get; init; }

    /// <summary>Whether a qualified adult is there. Left out: not known.</summary>
    public bool? Supervised { get; init; }

    /// <summary>Lasting limitations, such as those of para athletes; at most 20 of 1 to 200 characters. Not served yet: the answer says so and guesses nothing. Kept apart from the record's hashed body.</summary>
    public IReadOnlyList<string>? Limitations { get; init; }
}

/// <summary>Where and with what.</summary>
public sealed record SettingFacts
{
    /// <summary>Place id. Left out: club-gym.</summary>
    public string? Place { get; init; }

    /// <summary>Equipment ids at hand; empty means none. Left out: the place's usual.</summary>
    public IReadOnlyList<string>? Equipment { get; init; }

    /// <summary>No single pick may need more minutes, 1 to 600.</summary>
    public decimal? Minutes { get; init; }

    /// <summary>Loads that are really there; loads in kilograms are rounded to them.</summary>
    public KitFacts? Kit { get; init; }

    /// <summary>pre-track, after-track, gym, recovery-day, travel-day, competition-day. Left out: a session of its own.</summary>
    public string? Slot { get; init; }

    /// <summary>no-impact, quiet, small-space.</summary>
    public IReadOnlyList<string>? Limits { get; init; }
}

/// <summary>Something that hurts.</summary>
public sealed record Complaint
{
    /// <summary>Region id. Required.</summary>
    public string? Region { get; init; }

    /// <summary>left, right or both. Left out: both.</summary>
    public string? Side { get; init; }

    /// <summary>Pain on the numeric rating scale, whole number 0 to 10. Required.</summary>
    public int? Pain { get; init; }

    /// <summary>settled, same or worse than before the last session. Left out: same.</summary>
    public string? NextMorning { get; init; }

    /// <summary>Mornings after the last sessions, latest first, at most 7, each settled, same or worse; nextMorning is the first.</summary>
    public IReadOnlyList<string>? Mornings { get; init; }

    /// <summary>How pain goes from week to week: falling, steady or rising. Left out: steady.</summary>
    public string? Trend { get; init; }

    /// <summary>Kind of complaint. Left out: pain.</summary>
    public string? Kind { get; init; }

    /// <summary>Tissue that hurts. Left out: what the region's limits were made for.</summary>
    public string? Tissue { get; init; }

    /// <summary>sudden or gradual. Left out: gradual.</summary>
    public string? Onset { get; init; }

    /// <summary>Whole days since it began, 0 to 7300. Left out after a sudden onset: today.</summary>
    public int? DaysSinceOnset { get; init; }

    /// <summary>Loading stage the athlete was put on. Left out: taken from pain.</summary>
    public string? Stage { get; init; }

    /// <summary>What provokes it; at most 10.</summary>
    public IReadOnlyList<string>? ProvokedBy { get; init; }

    /// <summary>Red-flag ids of this body part.</summary>
    public IReadOnlyList<string>? RedFlags { get; init; }

    /// <summary>Free text up to 500 characters; kept and shown in the record, never interpreted.</summary>
    public string? Note { get; init; }
}

/// <summary>A quality the coach wants built.</summary>
public sealed record CoachNeed
{
    /// <summary>Quality id, or trunk-control for the trunk qualities together. Required.</summary>
    public string? Quality { get; init; }

    /// <summary>low, medium or high. Left out, without a weight: medium.</summary>
    public string? Importance { get; init; }

    /// <summary>0 to 1, added to the profile before all are scaled to 1; instead of an importance.</summary>
    public decimal? Weight { get; init; }
}

/// <summary>Work done lately.</summary>
public sealed record RecentWork
{
    /// <summary>Exercise id. Required.</summary>
    public string? Exercise { get; init; }

    /// <summary>Whole days ago, 0 to 365. Required.</summary>
    public int? DaysAgo { get; init; }

    /// <summary>Sets, 1 to 50.</summary>
    public int? Sets { get; init; }

    /// <summary>Amount of a set, above 0 to 10,000.</summary>
    public decimal? Amount { get; init; }

    /// <summary>Unit of the amount.</summary>
    public string? Unit { get; init; }
}

/// <summary>How hard a session was felt.</summary>
public sealed record SessionRating
{
    /// <summary>Whole days ago, 0 to 28. Required.</summary>
    public int? DaysAgo { get; init; }

    /// <summary>Perceived effort of the whole session, 0 to 10. Required.</summary>
    public decimal? Effort { get; init; }

    /// <summary>Minutes it lasted, 1 to 600. Required.</summary>
    public decimal? Minutes { get; init; }
}

/// <summary>Only exercises of these kinds; absent lists do not count, present ones must all be met.</summary>
public sealed record OnlyFilter
{
    /// <summary>Support ids.</summary>
    public IReadOnlyList<string>? Support { get; init; }

    /// <summary>Pattern ids.</summary>
    public IReadOnlyList<string>? Pattern { get; init; }

    /// <summary>Quality ids; the exercise must be rated for one of them.</summary>
    public IReadOnlyList<string>? Quality { get; init; }

    /// <summary>Loading rates.</summary>
    public IReadOnlyList<string>? LoadingRate { get; init; }
}
