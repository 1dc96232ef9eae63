namespace Recommender.Answers.Wire;

/// <summary>A key that is asked for.</summary>
public sealed record KeyRequest
{
    /// <summary>What it may ask: recommend, audit, curate, admin; one of each at most.</summary>
    public IReadOnlyList<string>? Scopes { get; init; }

    /// <summary>What it is for, so that it is known later which to end.</summary>
    public string? Note { get; init; }

    /// <summary>Days until it ends by itself. Absent: it does not.</summary>
    public int? ExpiresInDays { get; init; }
}

/// <summary>Another secret that is asked for.</summary>
public sealed record RotationRequest
{
    /// <summary>Minutes for which the secret so far holds beside the new one. Absent: none; it ends at once.</summary>
    public int? OverlapMinutes { get; init; }
}
