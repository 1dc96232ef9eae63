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

    /// <summary>Exercise ids not wanted; at most 1,000.</summary>
    public IReadOnlyList<string>? Exclude { get; init; }

    /// <summary>Only exercises of these kinds.</summary>
    public OnlyFilter? Only { get; init; }

    /// <summary>How many picks, 1 to 30. Left out: 6.</summary>
    public int? Count { get; init; }
}

/// <summary>Facts about the athlete.</summary>
public sealed record AthleteFacts
{
    /// <summary>The caller's own reference, up to 100 characters. Kept apart from the record's hashed body.</summary>
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

    /// <summary>left or right.</summary>
    public string? TakeOffLeg { get; init; }
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
