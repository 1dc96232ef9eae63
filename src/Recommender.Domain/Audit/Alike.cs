using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Audit;

/// <summary>Likeness of every exercise to a replaced one, in the needs of a trial.</summary>
internal sealed class Alike
{
    private readonly int replaced;
    private readonly int[] likeness;
    private readonly int[] kept; // share of the purpose
    private readonly int[] order; // likeness less what the reason takes

    /// <param name="question">What was asked.</param>
    /// <param name="trial">Gives the needs.</param>
    public Alike(SubstitutionAsked question, Trial trial)
    {
        var (catalogue, own) = (trial.Situation.Catalogue, question.Replaced(trial.Situation.Edition));
        var alike = SubstitutionAsked.LikenessIn(trial.Situation, trial.Profile);
        var reason = new SwapReason(question.Request.Reason, trial.Situation, trial.Limits, own);
        replaced = own.Id is { } id ? catalogue.PositionOf(id) : -1;
        (likeness, kept, order) = (new int[catalogue.Count], new int[catalogue.Count], new int[catalogue.Count]);
        for (var e = 0; e < catalogue.Count; e++)
        {
            likeness[e] = alike.Of(own, catalogue.Traits[e], out kept[e]);
            order[e] = likeness[e] - reason.Takes(e);
        }
    }

    /// <summary>Catalogue position of what <see cref="SubstituteChoice"/> puts first, without sorting the rest; -1 where nothing is offered.</summary>
    /// <param name="trial">Gives what is open, and the scores that part equal ones.</param>
    public int First(Trial trial)
    {
        var rules = trial.Situation.Knowledge.Substitution;
        var most = 0;
        for (var e = 0; e < order.Length; e++)
        {
            most = trial.RefusedBy[e] == 0 && e != replaced ? Math.Max(most, kept[e]) : most;
        }

        var keeps = most >= (int)(rules.KeepsFrom * 1000);
        var least = (int)((keeps ? rules.OfferedFrom : rules.NearestFrom) * 1000);
        var first = -1;
        for (var e = 0; e < order.Length && (keeps || rules.NearestAtMost > 0); e++)
        {
            if (trial.RefusedBy[e] == 0 && e != replaced && kept[e] >= least && (first < 0 || IsBefore(trial, e, first)))
            {
                first = e;
            }
        }

        return first;
    }

    /// <summary>Whether the later of two in the catalogue goes before the earlier.</summary>
    private bool IsBefore(Trial trial, int e, int first) =>
        order[e] != order[first] ? order[e] > order[first]
        : likeness[e] != likeness[first] ? likeness[e] > likeness[first]
        : trial.Scores[e] > trial.Scores[first];
}
