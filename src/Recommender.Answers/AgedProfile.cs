using Recommender.Answers.Wire;

namespace Recommender.Answers;

/// <summary>Moves a saved profile on: what is counted in days and weeks grows older by itself.</summary>
public static class AgedProfile
{
    private const int DaysPerWeek = 7;

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
        return profile with
        {
            AsOf = today,
            WeeksToCompetition = profile.WeeksToCompetition is { } weeks ? Math.Max(0, decimal.Round(weeks - ((decimal)days / DaysPerWeek), 2)) : null,
            Competitions = profile.Competitions.Later(days),
            Tests = profile.Tests.Later(days),
            Complaints = profile.Complaints.Later(days),
            Athlete = profile.Athlete.Later(days),
        };
    }
}
