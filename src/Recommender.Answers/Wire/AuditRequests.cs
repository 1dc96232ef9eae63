namespace Recommender.Answers.Wire;

/// <summary>What a walk along the chain may be asked.</summary>
public sealed record VerifyRequest
{
    /// <summary>A head that was noted earlier, 64 lower-case hexadecimal digits: whether a record of the chain still carries it. Left out: not asked.</summary>
    public string? Head { get; init; }
}

/// <summary>What a decision is answered again on.</summary>
public sealed record ReplayRequest
{
    /// <summary>stored: the versions it was made on. current: those in force now. Left out: stored.</summary>
    public string? On { get; init; }
}
