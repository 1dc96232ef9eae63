namespace Recommender.Domain.Requests;

/// <summary>What a clinician wrote about a region. The strictest of rule and restriction holds; one past its review is kept and shown as overdue.</summary>
public sealed record Restriction
{
    /// <summary>Region id. Required.</summary>
    public string? Region { get; init; }

    /// <summary>left, right or both. Left out: both.</summary>
    public string? Side { get; init; }

    /// <summary>Upper tissue load allowed, 0 to 10. At least one of the limits is required.</summary>
    public decimal? MaxTissueLoad { get; init; }

    /// <summary>Fastest loading rate allowed.</summary>
    public string? MaxLoadingRate { get; init; }

    /// <summary>True when no landing may load the region.</summary>
    public bool? NoImpact { get; init; }

    /// <summary>Latest loading stage allowed.</summary>
    public string? Stage { get; init; }

    /// <summary>Whole days until it is reviewed, -3650 to 3650; below 0 the review is overdue. Left out: no review is known.</summary>
    public int? ReviewInDays { get; init; }

    /// <summary>Who wrote it, up to 100 characters. Kept apart from the record's hashed body, never part of an answer.</summary>
    public string? By { get; init; }
}

/// <summary>A clinician's clearance for a general flag.</summary>
public sealed record Clearance
{
    /// <summary>pregnancy, recent-birth or recent-surgery. Required.</summary>
    public string? Flag { get; init; }

    /// <summary>Who gave it, up to 100 characters. Kept apart from the record's hashed body, never part of an answer.</summary>
    public string? By { get; init; }

    /// <summary>Whole days ago, 0 to 3650. Required.</summary>
    public int? DaysAgo { get; init; }
}

/// <summary>A region that was hurt before.</summary>
public sealed record EarlierInjury
{
    /// <summary>Region id. Required.</summary>
    public string? Region { get; init; }

    /// <summary>left, right or both. Left out: both.</summary>
    public string? Side { get; init; }

    /// <summary>Whole months ago, 0 to 1200, and not before birth. Required.</summary>
    public int? MonthsAgo { get; init; }

    /// <summary>Whether it was operated on. Left out: no.</summary>
    public bool? Surgery { get; init; }
}

/// <summary>Time off training.</summary>
public sealed record LayoffFacts
{
    /// <summary>Weeks off, 0 to 520. Required.</summary>
    public decimal? Weeks { get; init; }

    /// <summary>break, illness or injury. Left out: injury, the strictest.</summary>
    public string? Reason { get; init; }
}
