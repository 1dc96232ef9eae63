using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>A record and its place in the chain.</summary>
/// <param name="Record">The record; personal part, ref and coach are empty once erased.</param>
/// <param name="Sequence">Its place in its organisation's chain, from 1.</param>
/// <param name="Hash">Hash it carries.</param>
/// <param name="PreviousHash">Hash of the record before it.</param>
/// <param name="PersonalDataErased">Whether its personal part was erased.</param>
public sealed record StoredDecision(DecisionRecord Record, long Sequence, ReadOnlyMemory<byte> Hash, ReadOnlyMemory<byte> PreviousHash, bool PersonalDataErased);

/// <summary>What a list shows of a record.</summary>
/// <param name="DecisionId">Id.</param>
/// <param name="Kind">recommendation, substitution or session.</param>
/// <param name="CreatedAt">When, UTC.</param>
/// <param name="AthleteRef">The athlete's ref; null when none was sent or it was erased.</param>
/// <param name="Coach">The coach's id; null when none was sent or it was erased.</param>
/// <param name="Status">Status of the answer.</param>
/// <param name="Top">Exercise ranked first, or null.</param>
/// <param name="Versions">What it was made on.</param>
/// <param name="Sequence">Its place in its organisation's chain, from 1.</param>
public sealed record DecisionSummary(string DecisionId, string Kind, DateTimeOffset CreatedAt, string? AthleteRef, string? Coach, string Status, string? Top, VersionStamp Versions, long Sequence);

/// <summary>Which decisions are meant; what is null does not count.</summary>
public sealed record DecisionFilter
{
    /// <summary>All of them.</summary>
    public static DecisionFilter All { get; } = new();

    /// <summary>The athlete's ref.</summary>
    public string? Athlete { get; init; }

    /// <summary>The coach's id; no decision from which it was erased.</summary>
    public string? Coach { get; init; }

    /// <summary>Exercise that the answer picks or replaces.</summary>
    public string? Exercise { get; init; }

    /// <summary>Kind of decision.</summary>
    public string? Kind { get; init; }

    /// <summary>Status of the answer.</summary>
    public string? Status { get; init; }

    /// <summary>Version of catalogue, rules or preference that it was made on.</summary>
    public string? Version { get; init; }

    /// <summary>Not before this moment.</summary>
    public DateTimeOffset? From { get; init; }

    /// <summary>Before this moment.</summary>
    public DateTimeOffset? To { get; init; }
}

/// <summary>Where a list goes on: the last decision of the page before.</summary>
/// <param name="CreatedAt">When it was made.</param>
/// <param name="Sequence">Its place in the chain.</param>
public readonly record struct DecisionPlace(DateTimeOffset CreatedAt, long Sequence);
