using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Sessions;

/// <summary>An exercise with one of its doses, ready to be chosen.</summary>
/// <param name="Position">Catalogue position.</param>
/// <param name="Dose">Dose.</param>
/// <param name="Score">Thousandths.</param>
/// <param name="Own">Thousandths that it brings to a set of its own, beside what it brings for needs.</param>
/// <param name="Tenths">Tenths of a minute, set-up and warm-up sets included.</param>
/// <param name="NeedsTenths">Tenths of a minute that there must be for it to be eligible at all.</param>
/// <param name="Smaller">Whether it is the smallest dose worth doing, beside the usual one.</param>
internal sealed record SessionCandidate(int Position, Dose Dose, int Score, int Own, int Tenths, int NeedsTenths, bool Smaller);

/// <summary>Everything that a session may be chosen from: what passes the gates, with its doses.</summary>
internal static class SessionCandidates
{
    private const string MinutesReason = "minutes";

    /// <summary>The candidates by catalogue position, the usual dose before the smaller one.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="profile">What is needed.</param>
    /// <param name="needs">Gives what each is for.</param>
    /// <param name="eligibility">What the gates said.</param>
    /// <param name="engine">Gives scores.</param>
    /// <param name="locked">Positions that stay; they are candidates even where they serve no need.</param>
    /// <remarks>What the minutes alone refuse is there too, marked by <see cref="SessionCandidate.NeedsTenths"/>, so that it can be asked what more minutes would bring.</remarks>
    public static IReadOnlyList<SessionCandidate> Of(Situation situation, NeedProfile profile, NeedTable needs, EligibilityOutcome eligibility, ScoringEngine engine, IReadOnlySet<int> locked)
    {
        var rules = situation.Knowledge;
        var least = Points.Of(rules.Scoring.NeedMatch.MinPoints).Thousandths;
        var doses = new DoseCalculator(situation, profile);
        var minutes = EligibilityFilter.Gates.Select((g, i) => (g, i)).First(g => g.g.Reason == MinutesReason);
        var candidates = new List<SessionCandidate>();
        if (eligibility.Limits.Referral?.Scope == "all")
        {
            return candidates;
        }

        for (var e = 0; e < situation.Catalogue.Count; e++)
        {
            var refusedBy = eligibility.RefusedBy[e];
            if ((refusedBy & ~(1U << minutes.i)) != 0)
            {
                continue;
            }

            var score = engine.Score(e, out var needPoints);
            if (needPoints < least && !locked.Contains(e))
            {
                continue;
            }

            var needsTenths = refusedBy == 0 ? 0 : (int)((decimal)minutes.g.Explain(eligibility.Context, e).Value! * 10);
            var choices = doses.Choices(e, needs.PurposeOf(situation.Catalogue, e), situation.EquipmentUsed(e));
            for (var c = 0; c < choices.Count; c++)
            {
                var own = (int)decimal.Round(score * rules.Session.Objective.OwnShare, MidpointRounding.AwayFromZero);
                var lost = c == 0 ? 0 : needPoints * rules.Session.SmallerDose.Share * (choices[0].Sets - choices[c].Sets) / choices[0].Sets;
                candidates.Add(new SessionCandidate(e, choices[c], score, own - (int)decimal.Round(lost, MidpointRounding.AwayFromZero), Tenths(choices[c]), needsTenths, c > 0));
            }
        }

        return candidates;
    }

    /// <summary>Tenths of a minute of a dose; the longer side's where the sides differ.</summary>
    public static int Tenths(Dose dose)
    {
        var minutes = dose.Sides is { } sides ? Math.Max(dose.Minutes, Math.Max(sides.Left.Minutes, sides.Right.Minutes)) : dose.Minutes;
        return (int)decimal.Ceiling(minutes * 10);
    }
}
