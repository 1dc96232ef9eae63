namespace Recommender.Answers;

/// <summary>Which day a moment belongs to: that of UTC. Decisions are told in UTC everywhere, and replicas in different places must not part one session's day in two.</summary>
public static class Day
{
    /// <summary>The day of a moment.</summary>
    /// <param name="moment">Any moment, in any offset.</param>
    public static DateOnly Of(DateTimeOffset moment) => DateOnly.FromDateTime(moment.UtcDateTime);
}
