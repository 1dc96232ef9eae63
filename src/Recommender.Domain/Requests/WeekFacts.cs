namespace Recommender.Domain.Requests;

/// <summary>A session of the rest of the week.</summary>
public sealed record TrainingDay
{
    /// <summary>Kind of training. Required.</summary>
    public string? Kind { get; init; }

    /// <summary>Days from today, -14 to 14; 0 is today. Required.</summary>
    public int? DaysFromToday { get; init; }

    /// <summary>Minutes, 1 to 600.</summary>
    public decimal? Minutes { get; init; }

    /// <summary>Landings of one foot or of both together, 0 to 5,000.</summary>
    public int? Contacts { get; init; }

    /// <summary>Throws, 0 to 1,000.</summary>
    public int? Throws { get; init; }

    /// <summary>Perceived effort, 0 to 10; decides with the kind whether it is a hard day.</summary>
    public decimal? Effort { get; init; }
}

/// <summary>A competition ahead or under way.</summary>
public sealed record Competition
{
    /// <summary>Days to its first day, -30 to 420; below 0 when it has begun. Required.</summary>
    public int? DaysToStart { get; init; }

    /// <summary>Days it lasts, 1 to 30. Left out: 1.</summary>
    public int? Days { get; init; }

    /// <summary>main, build-up or training-through. Left out: main.</summary>
    public string? Priority { get; init; }
}

/// <summary>Loads that are really there.</summary>
public sealed record KitFacts
{
    /// <summary>Dumbbells.</summary>
    public DumbbellKit? Dumbbell { get; init; }

    /// <summary>Bar and plates.</summary>
    public BarbellKit? Barbell { get; init; }
}

/// <summary>Dumbbells from one step up to a heaviest.</summary>
public sealed record DumbbellKit
{
    /// <summary>Heaviest, 0.5 to 100 kg each. Required.</summary>
    public decimal? MaxKg { get; init; }

    /// <summary>Step between them, 0.25 to 20 kg. Left out: the rules' step.</summary>
    public decimal? StepKg { get; init; }
}

/// <summary>A bar with plates.</summary>
public sealed record BarbellKit
{
    /// <summary>The bar, 1 to 50 kg. Required.</summary>
    public decimal? BarKg { get; init; }

    /// <summary>Plates, 0.25 to 50 kg, at most 12 sizes: one pair of each, and of the heaviest as many as are needed. Required.</summary>
    public IReadOnlyList<decimal>? PlatesKg { get; init; }
}
