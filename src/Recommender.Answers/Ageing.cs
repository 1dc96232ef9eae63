using Recommender.Domain.Requests;

namespace Recommender.Answers;

/// <summary>What is counted in days and months grows older by itself.</summary>
public static class Ageing
{
    // Shorter than any month: an earlier injury is rather taken as more recent.
    private const int DaysPerMonth = 31;
    private const int MostDays = 3650;
    private const int MostDaysOfComplaint = 7300;
    private const int MostMonths = 1200;

    /// <summary>An athlete so many days later: reviews come nearer, clearances and injuries lie further back. A layoff stays until somebody takes it out, the safer side.</summary>
    /// <param name="athlete">Athlete.</param>
    /// <param name="days">Days, 0 or more.</param>
    public static AthleteFacts Later(this AthleteFacts athlete, int days) => athlete with
    {
        Restrictions = athlete.Restrictions is { } restrictions
            ? [.. restrictions.Select(r => r.ReviewInDays is { } left ? r with { ReviewInDays = Math.Max(-MostDays, left - days) } : r)]
            : null,
        Clearances = athlete.Clearances is { } clearances ? [.. clearances.Select(c => c with { DaysAgo = Math.Min(MostDays, c.DaysAgo!.Value + days) })] : null,
        History = athlete.History is { } history ? [.. history.Select(h => h with { MonthsAgo = Math.Min(MostMonths, h.MonthsAgo!.Value + (days / DaysPerMonth)) })] : null,
    };

    /// <summary>Complaints so many days later: what began on a day began longer ago. Pain stays as it was told.</summary>
    /// <param name="complaints">Complaints, or null.</param>
    /// <param name="days">Days, 0 or more.</param>
    public static IReadOnlyList<Complaint>? Later(this IReadOnlyList<Complaint>? complaints, int days) =>
        complaints is null ? null : [.. complaints.Select(c => c.DaysSinceOnset is { } since ? c with { DaysSinceOnset = Math.Min(MostDaysOfComplaint, since + days) } : c)];

    /// <summary>Test results so many days later.</summary>
    /// <param name="tests">Results, or null.</param>
    /// <param name="days">Days, 0 or more.</param>
    public static TestResults? Later(this TestResults? tests, int days) => tests is null ? null : tests with { DaysAgo = Math.Min(MostDays, (tests.DaysAgo ?? 0) + days) };

    /// <summary>Competitions so many days later; those that are over go.</summary>
    /// <param name="competitions">Competitions, or null.</param>
    /// <param name="days">Days, 0 or more.</param>
    public static IReadOnlyList<Competition>? Later(this IReadOnlyList<Competition>? competitions, int days) =>
        competitions is null ? null : [.. competitions.Select(c => c with { DaysToStart = c.DaysToStart - days }).Where(c => c.DaysToStart + (c.Days ?? 1) > 0)];
}
