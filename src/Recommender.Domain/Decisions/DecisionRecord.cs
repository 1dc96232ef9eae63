namespace Recommender.Domain.Decisions;

/// <summary>The stored record of one answer: what was asked, on which versions, and the answer byte for byte.</summary>
public sealed record DecisionRecord
{
    /// <summary>Organisation that owns it.</summary>
    public required string Organisation { get; init; }

    /// <summary>Id.</summary>
    public required string DecisionId { get; init; }

    /// <summary>recommendation, substitution or session.</summary>
    public required string Kind { get; init; }

    /// <summary>When, in UTC, whole milliseconds.</summary>
    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>Status of the answer.</summary>
    public required string Status { get; init; }

    /// <summary>Exercise ranked first, or null.</summary>
    public required string? Top { get; init; }

    /// <summary>Versions it was made on.</summary>
    public required VersionStamp Versions { get; init; }

    /// <summary>The request as JSON, without its personal part.</summary>
    public required ReadOnlyMemory<byte> Request { get; init; }

    /// <summary>What was read from the store for the request, as JSON, beside its versions; empty when nothing was.</summary>
    public ReadOnlyMemory<byte> Facts { get; init; }

    /// <summary>Ref, coach and notes as JSON, kept apart so that they can be erased; empty when there are none.</summary>
    public required ReadOnlyMemory<byte> Personal { get; init; }

    /// <summary>The athlete's ref, for search; part of <see cref="Personal"/>.</summary>
    public required string? AthleteRef { get; init; }

    /// <summary>The coach's id, for search; part of <see cref="Personal"/>.</summary>
    public required string? Coach { get; init; }

    /// <summary>Random bytes hashed with the personal part, so that its hash tells nothing once both are gone.</summary>
    public required ReadOnlyMemory<byte> PersonalSalt { get; init; }

    /// <summary>Hash of salt and personal part.</summary>
    public required ReadOnlyMemory<byte> PersonalHash { get; init; }

    /// <summary>The answer as it was sent.</summary>
    public required ReadOnlyMemory<byte> Answer { get; init; }

    /// <summary>Exercises that the answer picks, and the one that it replaces, for search; follows from <see cref="Answer"/> and is empty when read back.</summary>
    public IReadOnlyList<string> Exercises { get; init; } = [];
}
