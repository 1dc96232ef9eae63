using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/ledger.json: how work is added up on a tissue.</summary>
/// <param name="Exponent">Loads are raised to this before they are multiplied with loadings; 1 unless a source says otherwise.</param>
/// <param name="Days">Days of a week's ledger, today included.</param>
/// <param name="Alternating">Work that goes from side to side, so that a counted unit is one side's.</param>
/// <param name="UsualWork">What is taken for recent work whose sets or amount were not said.</param>
/// <param name="Effort">How perceived effort scales track work.</param>
/// <param name="Training">What each kind of training loads.</param>
/// <param name="Ratings">Monotony and strain of rated sessions.</param>
/// <param name="UsualWeek">Which weeks are taken as usual; null in versions from before there was one, which tell no share of it.</param>
public sealed record LedgerRules(RuleNumber Exponent, int Days, AlternatingRule Alternating, UsualWorkRule UsualWork, EffortRule Effort, IReadOnlyList<TrainingLoad> Training, RatingsRule Ratings,
    UsualWeekRule? UsualWeek = null);

/// <summary>Which weeks before the ledger's are taken as an athlete's usual ones.</summary>
/// <param name="Weeks">At most so many weeks before; those with work count.</param>
/// <param name="Note">How to read a share of it.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record UsualWeekRule(int Weeks, string Note, Basis Basis, string? Source = null);

/// <summary>Work that goes from side to side without being counted a side.</summary>
/// <param name="Share">Share of the counted units that each side gets.</param>
/// <param name="Supports">Supports it holds for.</param>
/// <param name="Units">Dose units it holds for; the loadings of other units are those of each side already.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record AlternatingRule(decimal Share, IReadOnlyList<Support> Supports, IReadOnlyList<DoseUnit> Units, string Note, Basis Basis, string? Source = null);

/// <summary>Recent work whose volume was not said.</summary>
/// <param name="Sets">Sets.</param>
/// <param name="Amount">Amount of a set, by dose unit.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record UsualWorkRule(int Sets, IReadOnlyDictionary<DoseUnit, decimal> Amount, string Note, Basis Basis, string? Source = null);

/// <summary>Share of the full load at an effort: evenly from effort 0 to 10; the full load where none is said.</summary>
/// <param name="AtZero">Share at effort 0.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record EffortRule(decimal AtZero, string Note, Basis Basis, string? Source = null);

/// <summary>What a kind of training loads.</summary>
/// <param name="Kind">Kind of training, from the week rules.</param>
/// <param name="Measures">First one that the request states is taken; where it states none, the first with its usual amount. Empty: nothing is counted.</param>
/// <param name="AsKind">Event group to the kind it counts as; null when it has measures of its own.</param>
/// <param name="Note">Why these numbers.</param>
/// <param name="Basis">Where they come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TrainingLoad(string Kind, IReadOnlyList<TrainingMeasure> Measures, IReadOnlyDictionary<string, string>? AsKind, string Note, Basis Basis, string? Source = null);

/// <summary>How one measure of training becomes loadings.</summary>
/// <param name="Measure">minutes, contacts or throws.</param>
/// <param name="Like">Exercise whose loads it has.</param>
/// <param name="LikeByEvent">Event id to such an exercise; null for one for all.</param>
/// <param name="LoadingsPerUnit">Loadings of each side in one unit.</param>
/// <param name="Usual">Amount taken where none is said.</param>
/// <param name="Side">each, take-off or throwing: whose limb it loads, where the athlete's is known.</param>
/// <param name="SidedRegions">Regions that only that side loads; empty for all of them.</param>
public sealed record TrainingMeasure(string Measure, string Like, IReadOnlyDictionary<string, string>? LikeByEvent, decimal LoadingsPerUnit, decimal Usual, string Side, IReadOnlyList<string> SidedRegions);

/// <summary>How rated sessions are summed up.</summary>
/// <param name="Days">Days of a week, rest days counting as 0.</param>
/// <param name="Deviation">sample (n - 1) or population (n).</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where the formulas come from.</param>
/// <param name="Source">Source id.</param>
public sealed record RatingsRule(int Days, string Deviation, string Note, Basis Basis, string? Source = null);
