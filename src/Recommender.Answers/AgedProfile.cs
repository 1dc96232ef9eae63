using Recommender.Answers.Wire;

namespace Recommender.Answers;

/// <summary>Moves a saved profile on: what is counted in days and weeks grows older by itself.</summary>
public static class AgedProfile
{
    private const int DaysPerWeek = 7;

    // Shorter than any month: an earlier injury is rather taken as more recent.
    private const int DaysPerMonth = 31;
    private const int MostDays = 3650;
    private const int MostDaysOfComplaint = 7300;

    /// <summary>The profile as it stands on a day. Competitions that are over go; a layoff stays until somebody takes it out, the safer side.</summary>
    /// <param name="profile">A profile.</param>
    /// <param name="today">The day.</param>
    public static AthleteProfile On(this AthleteProfile profile, DateOnly today)
    {
        if (profile.AsOf is not { } then || today <= then)
        {
            return profile;
        }

        var days = today.DayNumber - then.DayNumber;
        var athlete = profile.Athlete;
        return profile with
        {
            AsOf = today,
            WeeksToCompetition = profile.WeeksToCompetition is { } weeks ? Math.Max(0, decimal.Round(weeks - ((decimal)days / DaysPerWeek), 2)) : null,
            Competitions = profile.Competitions is { } competitions
                ? [.. competitions.Select(c => c with { DaysToStart = c.DaysToStart - days }).Where(c => c.DaysToStart + (c.Days ?? 1) > 0)]
                : null,
            Tests = profile.Tests is { } tests ? tests with { DaysAgo = Math.Min(MostDays, (tests.DaysAgo ?? 0) + days) } : null,
            Complaints = profile.Complaints is { } complaints
                ? [.. complaints.Select(c => c.DaysSinceOnset is { } since ? c with { DaysSinceOnset = Math.Min(MostDaysOfComplaint, since + days) } : c)]
                : null,
            Athlete = athlete with
            {
                Restrictions = athlete.Restrictions is { } restrictions
                    ? [.. restrictions.Select(r => r.ReviewInDays is { } left ? r with { ReviewInDays = Math.Max(-MostDays, left - days) } : r)]
                    : null,
                Clearances = athlete.Clearances is { } clearances ? [.. clearances.Select(c => c with { DaysAgo = Math.Min(MostDays, c.DaysAgo!.Value + days) })] : null,
                History = athlete.History is { } history ? [.. history.Select(h => h with { MonthsAgo = Math.Min(1200, h.MonthsAgo!.Value + (days / DaysPerMonth)) })] : null,
            },
        };
    }
}
