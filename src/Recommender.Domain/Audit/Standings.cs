using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Scoring;
using Recommender.Domain.Substitutions;

namespace Recommender.Domain.Audit;

/// <summary>Where exercises stand in a decision.</summary>
internal sealed class Standings
{
    private readonly Trial trial;
    private readonly ExerciseCatalogue catalogue;
    private readonly IReadOnlyList<int> picks;
    private readonly EligibilityOutcome outcome;
    private readonly Traits? replaced;
    private readonly Likeness? likeness;
    private readonly Dictionary<int, int> orders = [];

    public Standings(Question question, Trial trial)
    {
        this.trial = trial;
        catalogue = trial.Situation.Catalogue;
        outcome = trial.Outcome();
        picks = trial.Choose();
        IsSession = question is SessionAsked;
        if (question is SubstitutionAsked substitution)
        {
            (replaced, likeness) = (substitution.Replaced(trial.Situation.Edition), SubstitutionAsked.LikenessIn(trial.Situation, trial.Profile));
            foreach (var (position, candidate) in substitution.Candidates(trial, trial.Ranking()))
            {
                orders[position] = candidate.Order;
            }
        }
    }

    /// <summary>Whether the decision is a substitution.</summary>
    public bool IsSubstitution => likeness is not null;

    /// <summary>Whether the decision is a session.</summary>
    public bool IsSession { get; }

    /// <summary>Whether no gate refused it and no referral left nothing open; the replaced exercise itself is never open.</summary>
    public bool IsOpen(int position) => !trial.Referred && trial.RefusedBy[position] == 0 && catalogue.Exercises[position].Id != replaced?.Id;

    /// <summary>1 for the first pick; 0 where it is none.</summary>
    public int PlaceOf(int position) => picks.IndexOf(position) + 1;

    /// <summary>Thousandths.</summary>
    public int Score(int position) => trial.Scores[position];

    /// <summary>The one that is more like the replaced exercise, less what the reason takes where both are offered; null where they are as alike, or in no substitution.</summary>
    public int? ByLikeness(int a, int b)
    {
        if (likeness is null)
        {
            return null;
        }

        var (ofA, ofB) = orders.TryGetValue(a, out var orderA) && orders.TryGetValue(b, out var orderB) ? (orderA, orderB) : (Like(a), Like(b));
        return ofA == ofB ? null : ofA > ofB ? a : b;
    }

    /// <summary>Where an exercise stands.</summary>
    public ExerciseStanding Of(int position)
    {
        var place = PlaceOf(position);
        var where = trial.Referred ? StandingPlace.Referred : trial.RefusedBy[position] != 0 ? StandingPlace.LeftOut : place > 0 ? StandingPlace.Picked : StandingPlace.Eligible;
        return new ExerciseStanding(catalogue.Exercises[position].Name, where, place > 0 ? place : null, new Points(Score(position)), likeness is null ? null : Like(position) / 1000m,
            Refusals(position), where == StandingPlace.Eligible ? NotPicked(position) : null);
    }

    private int Like(int position) => likeness!.Of(replaced!, catalogue.Traits[position]);

    private List<Refusal> Refusals(int position)
    {
        var refusals = new List<Refusal>();
        for (var g = 0; g < EligibilityFilter.Gates.Count && !trial.Referred; g++)
        {
            if ((trial.RefusedBy[position] & (1U << g)) != 0)
            {
                refusals.Add(EligibilityFilter.Gates[g].Explain(outcome.Context, position));
            }
        }

        return refusals;
    }

    private string NotPicked(int position)
    {
        var situation = trial.Situation;
        if (IsSubstitution)
        {
            return catalogue.Exercises[position].Id == replaced!.Id ? "it is the exercise that is replaced"
                : likeness!.Kept(replaced, catalogue.Traits[position]) < (int)(situation.Knowledge.Substitution.OfferedFrom * 1000) ? "it keeps too little of what the replaced exercise was there for"
                : "others are more like the replaced exercise";
        }

        if (trial.NeedPoints[position] < Points.Of(situation.Knowledge.Scoring.NeedMatch.MinPoints).Thousandths)
        {
            return "it serves too little of what is needed";
        }

        foreach (var pick in picks)
        {
            if (catalogue.Families[pick] == catalogue.Families[position])
            {
                return $"{catalogue.Exercises[pick].Name}, a form of it, is there; one of a family is picked";
            }
        }

        return IsSession ? "the set as a whole is better without it, inside its limits"
            : picks.Count > 0 && Score(picks[^1]) > Score(position) ? "the picks have more points"
            : "picks are spread over movements and purposes, and it was put off for others";
    }
}

/// <summary>Finds in a read-only list.</summary>
internal static class ReadOnlyLists
{
    /// <summary>Index of a value, or -1.</summary>
    public static int IndexOf(this IReadOnlyList<int> list, int value)
    {
        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] == value)
            {
                return i;
            }
        }

        return -1;
    }
}
