using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Ledger;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Sessions;

/// <summary>The answer to a request for a session.</summary>
public sealed record SessionAnswer : IDecided
{
    /// <summary>Id under which the decision is on record.</summary>
    public required string DecisionId { get; init; }

    /// <summary>What became of the request.</summary>
    public required AnswerStatus Status { get; init; }

    /// <summary>How many exercises passed every gate.</summary>
    public required int EligibleCount { get; init; }

    /// <summary>Picks, in the order they are done.</summary>
    public required IReadOnlyList<SessionPick> Picks { get; init; }

    /// <summary>Minutes as arranged: work, rest, set-up, warm-up sets and changes; one decimal. The general warm-up comes before.</summary>
    public required decimal Minutes { get; init; }

    /// <summary>Minutes of them that doing picks in turn saves.</summary>
    public required decimal MinutesSaved { get; init; }

    /// <summary>What the set is worth: need points with diminishing returns, and a share of the picks' own scores.</summary>
    public required Points Points { get; init; }

    /// <summary>Region id to what the session lays on it by side: sets x amount x loadings per unit x load. Not what a tissue can stand.</summary>
    public required IReadOnlyDictionary<string, SideTotal> TissueTotals { get; init; }

    /// <summary>Budgets in force and what is used of them.</summary>
    public required IReadOnlyList<BudgetUse> Budgets { get; init; }

    /// <summary>How far each need is covered.</summary>
    public required IReadOnlyList<NeedCoverage> Coverage { get; init; }

    /// <summary>Whether the set is proven to be the best.</summary>
    public required Optimality Optimality { get; init; }

    /// <summary>Limits that hold the set back, and what a little more of each would bring when solved again.</summary>
    public required IReadOnlyList<TightLimit> Tight { get; init; }

    /// <summary>The best of what was not chosen, and for which limit.</summary>
    public required IReadOnlyList<NotChosen> NotChosen { get; init; }

    /// <summary>What stands in the way of any session; empty when there is one.</summary>
    public required IReadOnlyList<SessionBlock> Blocks { get; init; }

    /// <summary>What became of the picks of the earlier decision, or null.</summary>
    public required EarlierKept? Previous { get; init; }

    /// <summary>The last seven days.</summary>
    public required WeekLoad Week { get; init; }

    /// <summary>Limits that the complaints put on tissue load.</summary>
    public required IReadOnlyList<Limit> Limits { get; init; }

    /// <summary>What the gates left out, and why.</summary>
    public required LeftOut LeftOut { get; init; }

    /// <summary>What the athlete needs; weights sum to 1.</summary>
    public required IReadOnlyList<NeedLine> Needs { get; init; }

    /// <summary>Needs that no pick serves strongly.</summary>
    public required IReadOnlyList<UnmetNeed> Unmet { get; init; }

    /// <summary>What was taken because the request left it out.</summary>
    public required IReadOnlyList<Assumption> Assumed { get; init; }

    /// <summary>A referral to a clinician, or null.</summary>
    public required Referral? Referral { get; init; }

    /// <summary>What a person should read first.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>What the answer was made on.</summary>
    public required VersionStamp Versions { get; init; }

    /// <inheritdoc/>
    string? IDecided.Top => Picks.Count > 0 ? Picks[0].Exercise.Id : null;

    /// <inheritdoc/>
    IReadOnlyList<string> IDecided.Exercises => [.. Picks.Select(p => p.Exercise.Id)];
}

/// <summary>One pick of a session.</summary>
/// <param name="Order">1 is done first.</param>
/// <param name="Block">warm-up, power, strength, accessory, trunk or mobility.</param>
/// <param name="SupersetWith">Exercise id of the pick it is done in turn with, or null.</param>
/// <param name="Exercise">The exercise in short.</param>
/// <param name="Score">The sum of the contributions.</param>
/// <param name="Contributions">One a factor.</param>
/// <param name="Dose">How much to do; null where a clinician sets it.</param>
/// <param name="TissueLoad">Load on regions that are sore or that the event wears.</param>
/// <param name="TissueTotals">What this pick lays on those regions and on those with a budget, by side; the answer's totals are the sums.</param>
/// <param name="Adds">What the set would lose for each need without it; empty when others cover all it does.</param>
/// <param name="Locked">Whether it was locked.</param>
/// <param name="Why">Why it is here, in plain sentences.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Evidence">What the score rests on.</param>
public sealed record SessionPick(int Order, string Block, string? SupersetWith, ExerciseBrief Exercise, Points Score, IReadOnlyList<Contribution> Contributions, Dose? Dose,
    IReadOnlyDictionary<string, TissueLoad> TissueLoad, IReadOnlyDictionary<string, SideTotal> TissueTotals, IReadOnlyList<AddedNeed> Adds, bool Locked, IReadOnlyList<string> Why, IReadOnlyList<string> Cautions, EvidenceShare Evidence);

/// <summary>What a pick adds for a need that the others do not.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Points">Points that the set would lose.</param>
/// <param name="Alone">Whether no other pick serves it at all.</param>
public sealed record AddedNeed(string Quality, Points Points, bool Alone);

/// <summary>A budget and its use.</summary>
/// <param name="Region">Region id.</param>
/// <param name="Budget">Loadings x load of the worse side.</param>
/// <param name="CarriedOver">What the last days' work takes of it.</param>
/// <param name="Used">What the session takes.</param>
/// <param name="Left">What is left on the worse side.</param>
/// <param name="Assumed">Whether it comes from the rules for sore regions.</param>
public sealed record BudgetUse(string Region, decimal Budget, SideTotal CarriedOver, SideTotal Used, decimal Left, bool Assumed);

/// <summary>How far a need is covered.</summary>
/// <param name="Quality">Quality id.</param>
/// <param name="Weight">Weight of the need, 0 to 1.</param>
/// <param name="Reached">Share of all that picks can bring for it, 0 to 1, three decimals.</param>
/// <param name="By">Exercise ids of the picks that serve it, in order.</param>
public sealed record NeedCoverage(string Quality, decimal Weight, decimal Reached, IReadOnlyList<string> By);

/// <summary>Whether a set is the best there is.</summary>
/// <param name="Proven">Whether it was proven.</param>
/// <param name="Gap">Share of the best conceivable points that a better set might have, 0 when proven; four decimals.</param>
/// <param name="SetsExamined">Sets that the search looked at.</param>
public sealed record Optimality(bool Proven, decimal Gap, int SetsExamined);

/// <summary>A limit that holds the set back.</summary>
/// <param name="Constraint">minutes or budget:REGION.</param>
/// <param name="Gain">Points gained when solved again with one unit more.</param>
/// <param name="PerUnit">The unit, in words.</param>
public sealed record TightLimit(string Constraint, Points Gain, string PerUnit);

/// <summary>An exercise that was not chosen.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Constraint">The limit that keeps it out: minutes, slots, budget:REGION, contacts, balance:RULE, family, or points where it would only make the set worse.</param>
/// <param name="Text">In plain words.</param>
public sealed record NotChosen(string Exercise, string Constraint, string Text);

/// <summary>What stands in the way of any session.</summary>
/// <param name="Constraint">minutes, slots, budget:REGION, contacts, locked:EXERCISE, a gate's reason, or nothing-eligible.</param>
/// <param name="Exercise">Exercise id it is about, or null.</param>
/// <param name="Text">In plain words, with what would help.</param>
public sealed record SessionBlock(string Constraint, string? Exercise, string Text);

/// <summary>What became of earlier picks.</summary>
/// <param name="DecisionId">The earlier decision.</param>
/// <param name="Exercises">Its picks, as they lie on record.</param>
/// <param name="Kept">Those that are picks again.</param>
/// <param name="PointsGivenUp">Points that the best set has more.</param>
public sealed record EarlierKept(string DecisionId, IReadOnlyList<string> Exercises, IReadOnlyList<string> Kept, Points PointsGivenUp);

/// <summary>The last seven days, today's other work included.</summary>
/// <param name="Days">Days.</param>
/// <param name="Work">Region id to what recent exercises laid on it.</param>
/// <param name="Training">Region id to what the rest of the training laid on it.</param>
/// <param name="WithSession">Region id to both and this session.</param>
/// <param name="Usual">The athlete's usual week and how these days stand to it; null where the request tells too little of earlier weeks.</param>
/// <param name="Ratings">Monotony and strain of the rated sessions; null when none was sent.</param>
public sealed record WeekLoad(int Days, IReadOnlyDictionary<string, SideTotal> Work, IReadOnlyDictionary<string, SideTotal> Training, IReadOnlyDictionary<string, SideTotal> WithSession, UsualWeek? Usual, RatedWeek? Ratings);
