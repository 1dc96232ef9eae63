using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Athletes;

/// <summary>Everything that the hand-over page of an athlete shows.</summary>
/// <param name="Profile">The profile as it stands today.</param>
/// <param name="Today">Today.</param>
/// <param name="Limits">Limits that complaints and restrictions put on tissue load; null while the profile is not complete.</param>
/// <param name="Lacks">What the profile lacks for an answer; empty when nothing.</param>
/// <param name="Days">What was given in the last weeks, newest first.</param>
/// <param name="Weeks">How many weeks that is.</param>
/// <param name="Edition">For words.</param>
/// <param name="Saved">Whether it was saved a moment ago.</param>
public sealed record ShownAthlete(AthleteProfile Profile, DateOnly Today, TissueLimits? Limits, IReadOnlyList<Fault> Lacks, IReadOnlyList<GivenDay> Days, int Weeks, Edition Edition, bool Saved)
{
    /// <summary>Restrictions, those whose review is longest overdue first; those without a review last.</summary>
    public IReadOnlyList<Restriction> Restrictions => [.. (Profile.Athlete.Restrictions ?? []).OrderBy(r => r.ReviewInDays ?? int.MaxValue)];

    /// <summary>Competitions that are still to come, nearest first.</summary>
    public IReadOnlyList<Competition> Competitions => [.. (Profile.Competitions ?? []).OrderBy(c => c.DaysToStart)];
}
