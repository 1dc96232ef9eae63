using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>A request for a session, as it was sent.</summary>
public record SessionRequest
{
    /// <summary>Athlete, phase and the rest, as in a request for recommendations. Required. Its <c>setting.minutes</c> are those of the whole session; its <c>count</c> does not count.</summary>
    public RecommendationRequest? Context { get; init; }

    /// <summary>How many exercises. Left out: one to the usual number.</summary>
    public SlotRange? Slots { get; init; }

    /// <summary>Region id to the most that the session may lay on its worse side (sets x amount x loadings per unit x load), above 0 to 100,000; at most 30.</summary>
    public IReadOnlyDictionary<string, decimal>? Budgets { get; init; }

    /// <summary>Exercise ids that stay; at most 12.</summary>
    public IReadOnlyList<string>? Locked { get; init; }

    /// <summary>Exercise ids that go; at most 1,000.</summary>
    public IReadOnlyList<string>? Avoid { get; init; }

    /// <summary>Id of an earlier decision; its picks are kept where little is lost.</summary>
    public string? PreviousDecision { get; init; }
}

/// <summary>How many exercises.</summary>
public sealed record SlotRange
{
    /// <summary>At least, 1 to 12. Left out: 1.</summary>
    public int? Min { get; init; }

    /// <summary>At most, 1 to 12. Left out: the usual number.</summary>
    public int? Max { get; init; }
}

/// <summary>A request that names an earlier decision, with its picks read from the record. Travels and is stored as the plain request.</summary>
public sealed record SessionRequestKeeping : SessionRequest
{
    /// <param name="request">The request.</param>
    /// <param name="earlier">The picks.</param>
    public SessionRequestKeeping(SessionRequest request, EarlierPicks earlier)
        : base(request) => Earlier = earlier;

    /// <summary>The picks of the earlier decision.</summary>
    public EarlierPicks Earlier { get; }
}

/// <summary>The picks of an earlier decision, as they lie on record.</summary>
/// <param name="DecisionId">Its id.</param>
/// <param name="Exercises">Exercise ids in their order.</param>
public sealed record EarlierPicks(string DecisionId, IReadOnlyList<string> Exercises);
