namespace Recommender.Domain.Outcomes;

/// <summary>What was done with a pick and how it went, as it was sent. What is null was left out.</summary>
/// <remarks>Work, pain and effort are of what was done: of the replacement where the pick was swapped.</remarks>
public sealed record OutcomeReport
{
    /// <summary>Exercise id of a pick of the decision. Required.</summary>
    public string? Exercise { get; init; }

    /// <summary>used, swapped or declined. Required.</summary>
    public string? Verdict { get; init; }

    /// <summary>Exercise id of what was done in its place; with swapped alone, and required there.</summary>
    public string? ReplacedBy { get; init; }

    /// <summary>Sets that were done, at most 30.</summary>
    public IReadOnlyList<WorkDone>? Done { get; init; }

    /// <summary>Worst pain during the work, 0 to 10.</summary>
    public int? PainDuring { get; init; }

    /// <summary>Pain next morning, 0 to 10.</summary>
    public int? PainNextMorning { get; init; }

    /// <summary>Perceived effort of this work, 0 to 10.</summary>
    public decimal? Effort { get; init; }

    /// <summary>Free text, up to 500 characters: kept and shown, never interpreted.</summary>
    public string? Note { get; init; }
}

/// <summary>Sets that were done alike.</summary>
public sealed record WorkDone
{
    /// <summary>Sets, 1 to 30.</summary>
    public int? Sets { get; init; }

    /// <summary>Amount of a set in the unit of the dose, above 0, at most 3,600.</summary>
    public decimal? Amount { get; init; }

    /// <summary>Load, 0 to 1,000 kg.</summary>
    public decimal? LoadKg { get; init; }

    /// <summary>Repetitions left in reserve, 0 to 20.</summary>
    public decimal? RepsInReserve { get; init; }
}

/// <summary>Ids of verdicts, as the vocabulary has them.</summary>
public static class Verdicts
{
    /// <summary>The athlete did the pick.</summary>
    public const string Used = "used";

    /// <summary>Another exercise was done in its place.</summary>
    public const string Swapped = "swapped";

    /// <summary>It was left out and nothing took its place.</summary>
    public const string Declined = "declined";
}
