using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>Says what stands in the way when there is no session.</summary>
internal sealed class SessionBlocks(Situation situation, EligibilityOutcome eligibility, IReadOnlySet<int> locked)
{
    private readonly ExerciseCatalogue catalogue = situation.Catalogue;

    /// <summary>Locked exercises that a gate refuses: nothing is chosen around a lock that is not safe.</summary>
    public IReadOnlyList<SessionBlock> OfLocks()
    {
        var blocks = new List<SessionBlock>();
        foreach (var position in locked)
        {
            for (var g = 0; g < EligibilityFilter.Gates.Count; g++)
            {
                if ((eligibility.RefusedBy[position] >> g & 1) != 0)
                {
                    var gate = EligibilityFilter.Gates[g];
                    var id = catalogue.Exercises[position].Id;
                    blocks.Add(new SessionBlock(gate.Reason, id,
                        $"{id} is locked, but cannot be given: {catalogue.Vocabulary.Reasons.InSentence(gate.Reason)}. It could be if {gate.Explain(eligibility.Context, position).WouldBeAllowedIf}."));
                }
            }
        }

        return blocks;
    }

    /// <summary>Limits without which there would be a session.</summary>
    public IReadOnlyList<SessionBlock> OfLimits(SessionProblem session, SessionSolver solver, int least)
    {
        if (session.Candidates.Count == 0)
        {
            return [new SessionBlock("nothing-eligible", null, "Nothing that passes the gates serves a need; leftOut says what the gates refused.")];
        }

        var blocks = new List<SessionBlock>();
        var ids = session.With(0, 1, 1).Rows.Select(r => r.Id).Where(id => !id.StartsWith(SessionProblem.BalancePrefix, StringComparison.Ordinal)).Distinct(StringComparer.Ordinal).ToList();
        foreach (var id in ids)
        {
            if (solver.Without(row => row == id || Balance(row), least).Items is not null)
            {
                blocks.Add(new SessionBlock(id, id.StartsWith(SessionProblem.LockPrefix, StringComparison.Ordinal) ? id[SessionProblem.LockPrefix.Length..] : null, Said(id)));
            }
        }

        if (least > 1 && solver.Without(Balance, 1).Items is { } fewer)
        {
            blocks.Add(new SessionBlock(SessionProblem.SlotsId, null, $"At least {least} exercises are asked for, and fewer fit: the best session that keeps every limit has {fewer.Length}. Lower slots.min, or widen a limit."));
        }

        if (blocks.Count == 0)
        {
            blocks.Add(new SessionBlock("several", null, $"No single limit is to blame; together they leave nothing: {string.Join(", ", ids)}."));
        }

        return blocks;
    }

    private static bool Balance(string row) => row.StartsWith(SessionProblem.BalancePrefix, StringComparison.Ordinal);

    private string Said(string id) => id == SessionProblem.MinutesId ? "The minutes are too few for what is asked."
        : id.StartsWith(SessionProblem.BudgetPrefix, StringComparison.Ordinal)
            ? $"The budget of the {catalogue.Vocabulary.Regions.InSentence(id[SessionProblem.BudgetPrefix.Length..])}, with the last days' work, is too small for what is asked."
        : id.StartsWith(SessionProblem.LockPrefix, StringComparison.Ordinal) ? $"With {id[SessionProblem.LockPrefix.Length..]} locked, the limits leave nothing."
        : "The landings of a session are too few for what is asked.";
}
