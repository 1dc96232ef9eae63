using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Ask;

/// <summary>What a form is filled from: a saved athlete or an earlier decision.</summary>
/// <param name="athletes">Saved athletes.</param>
/// <param name="decisions">Earlier decisions.</param>
public sealed class AskSource(SavedAthletes athletes, OpenDecision decisions)
{
    /// <summary>Before a ref.</summary>
    public const string AthletePrefix = "athlete:";

    /// <summary>Before a decision's id.</summary>
    public const string DecisionPrefix = "decision:";

    /// <summary>The request it stands for and what to call it, or null when it is not there.</summary>
    /// <param name="organisation">Who asks.</param>
    /// <param name="from">athlete:REF or decision:ID.</param>
    public async Task<(RecommendationRequest Request, string Label)?> Find(string organisation, string? from)
    {
        if (from is null)
        {
            return null;
        }

        if (from.StartsWith(AthletePrefix, StringComparison.Ordinal))
        {
            return await athletes.One(organisation, from[AthletePrefix.Length..]).ConfigureAwait(false) is { } profile
                ? (Of(profile), $"Filled in from {profile.Name}’s profile; change what is different today.")
                : null;
        }

        var id = from.StartsWith(DecisionPrefix, StringComparison.Ordinal) ? from[DecisionPrefix.Length..] : "";
        if (await decisions.Recommendation(organisation, id).ConfigureAwait(false) is { } earlier)
        {
            return (earlier.Request, Label(earlier.CreatedAt));
        }

        return await decisions.Session(organisation, id).ConfigureAwait(false) is { Request.Context: { } context } session ? (context, Label(session.CreatedAt)) : null;

        static string Label(DateTimeOffset at) => $"Filled in from the answer of {at.UtcDateTime:d MMMM yyyy}; change what is different now.";
    }

    /// <summary>The request that a profile stands for.</summary>
    public static RecommendationRequest Of(AthleteProfile profile) => new()
    {
        Athlete = profile.Athlete with { Ref = profile.Ref },
        Phase = profile.Phase,
        WeeksToCompetition = profile.WeeksToCompetition,
        Competitions = profile.Competitions,
        Tests = profile.Tests,
        Setting = profile.Setting,
        Complaints = profile.Complaints,
        Needs = profile.Needs,
    };
}
