using Recommender.Domain.Dosing;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>
/// A weaker side's extra set, given once the set is chosen: in the pick with most points that serves it, and only where minutes, landings and budgets hold it.
/// It is no reason to choose an exercise, so the search does not know of it.
/// </summary>
internal static class WeakerSideSets
{
    /// <summary>The chosen candidates, with the extra sets that fit.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="profile">Gives the weaker sides.</param>
    /// <param name="needs">Gives what each is for.</param>
    /// <param name="session">Gives candidates and limits.</param>
    /// <param name="items">The chosen ones.</param>
    /// <param name="tenths">Tenths of a minute there are.</param>
    public static IReadOnlyList<SessionCandidate> Of(Situation situation, NeedProfile profile, NeedTable needs, SessionProblem session, IReadOnlyList<int> items, int tenths)
    {
        SessionCandidate[] chosen = [.. items.Select(i => session.Candidates[i])];
        var doses = new DoseCalculator(situation, profile);
        foreach (var i in Enumerable.Range(0, chosen.Length).OrderByDescending(i => chosen[i].Score).ThenBy(i => chosen[i].Position))
        {
            var before = chosen[i];
            if (doses.WithExtraSet(before.Position, needs.PurposeOf(situation.Catalogue, before.Position), before.Dose) is var (dose, weaker))
            {
                chosen[i] = before with { Dose = dose, Tenths = SessionCandidates.Tenths(dose) };
                if (session.Holds(chosen, tenths))
                {
                    doses.Served(weaker);
                }
                else
                {
                    chosen[i] = before;
                }
            }
        }

        return chosen;
    }
}
