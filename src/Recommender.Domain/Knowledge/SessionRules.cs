using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/session.json: how a session is chosen, ordered and kept inside its limits.</summary>
/// <param name="Picks">How many exercises.</param>
/// <param name="Minutes">Minutes where none are said.</param>
/// <param name="ChangeOverSeconds">Seconds from one exercise to the next.</param>
/// <param name="Objective">What makes a set good.</param>
/// <param name="SmallerDose">What the smallest dose worth doing costs beside the usual one.</param>
/// <param name="Balance">What a set holds in balance.</param>
/// <param name="SoreBudgets">Budgets of sore regions for which none is sent.</param>
/// <param name="CarryOver">How much of the last days' work counts against a budget.</param>
/// <param name="Keep">How far a set may fall behind the best for the sake of earlier picks.</param>
/// <param name="Blocks">Blocks in their order; the first whose exercises match takes the pick.</param>
/// <param name="BlocksBasis">Where the order comes from.</param>
/// <param name="Supersets">Which picks may be done in turn.</param>
/// <param name="Search">When the search for the best set gives up proving.</param>
/// <param name="Explanation">How much is explained.</param>
public sealed record SessionRules(PickCountRule Picks, RuleNumber Minutes, RuleNumber ChangeOverSeconds, SessionObjectiveRule Objective, SmallerDoseRule SmallerDose, BalanceRules Balance, SoreBudgetRule SoreBudgets,
    CarryOverRule CarryOver, KeepPicksRule Keep, IReadOnlyList<BlockRule> Blocks, RuleBasis BlocksBasis, SupersetRule Supersets, SearchRule Search, SessionExplanationRule Explanation);

/// <summary>How many exercises a session has.</summary>
/// <param name="Usual">At most so many where no slots are sent.</param>
/// <param name="Most">More cannot be asked for.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PickCountRule(int Usual, int Most, string Note, Basis Basis, string? Source = null);

/// <summary>What makes a set good: need points with diminishing returns per quality, and a share of the picks' own scores.</summary>
/// <param name="OwnShare">Share of each pick's score.</param>
/// <param name="NthShare">Share of a quality's need points that the n-th pick for it brings, never rising; later picks bring nothing.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SessionObjectiveRule(decimal OwnShare, IReadOnlyList<decimal> NthShare, string Note, Basis Basis, string? Source = null);

/// <summary>The smallest dose worth doing, offered beside the usual one.</summary>
/// <param name="Share">Points lost: this share of the exercise's need points, times the share of sets left out.</param>
/// <param name="LeastSets">It has at least so many sets, so that an exercise is not there for show.</param>
/// <param name="LeastShare">And at least this share of the usual sets.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SmallerDoseRule(decimal Share, int LeastSets, decimal LeastShare, string Note, Basis Basis, string? Source = null);

/// <summary>What a set holds in balance; a rule is not asked where one of its kinds has no candidate.</summary>
/// <param name="Pairs">Kinds whose counts differ by little.</param>
/// <param name="Support">Single and double support as the event asks.</param>
/// <param name="Kinds">Kinds of which there is a least and a most.</param>
public sealed record BalanceRules(IReadOnlyList<BalancePair> Pairs, SupportBalance Support, IReadOnlyList<BalanceKind> Kinds);

/// <summary>Two kinds whose counts differ by little.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="One">One kind.</param>
/// <param name="Other">The other.</param>
/// <param name="Difference">Counts differ by at most this.</param>
/// <param name="Label">In a sentence.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record BalancePair(string Id, IReadOnlyList<ExerciseMatch> One, IReadOnlyList<ExerciseMatch> Other, int Difference, string Label, string Note, Basis Basis, string? Source = null);

/// <summary>Single against double support, by the event's share of single support.</summary>
/// <param name="Pull">How far from even to the event's share of single support the aim goes, 0 to 1.</param>
/// <param name="Tolerance">Picks in single or split support may differ from the aim, of all standing picks, by this many.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SupportBalance(decimal Pull, decimal Tolerance, string Note, Basis Basis, string? Source = null);

/// <summary>A kind of which there is a least in long sessions and a most.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Matches">Exercises that one of these is about.</param>
/// <param name="FromPicks">At least one from so many picks on; null for no least.</param>
/// <param name="Most">At most so many; null for no most.</param>
/// <param name="Label">In a sentence.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="WeeksBelow">Only while fewer weeks than this are left to the competition; null for always.</param>
/// <param name="Protective">Only while this rule of rules/return.json holds; null for always.</param>
public sealed record BalanceKind(string Id, IReadOnlyList<ExerciseMatch> Matches, int? FromPicks, int? Most, string Label, string Note, Basis Basis, string? Source = null, decimal? WeeksBelow = null,
    string? Protective = null);

/// <summary>Budgets of sore regions.</summary>
/// <param name="Steps">By effective pain, ascending; above the last no budget beyond it.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SoreBudgetRule(IReadOnlyList<SoreBudget> Steps, string Note, Basis Basis, string? Source = null);

/// <summary>The budget up to a pain.</summary>
/// <param name="PainAtMost">Effective pain up to this.</param>
/// <param name="Budget">Loadings x load of the worse side.</param>
public sealed record SoreBudget(int PainAtMost, decimal Budget);

/// <summary>The last days' work in a budget.</summary>
/// <param name="Shares">Share that counts, by whole days ago from 0; older work does not count.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record CarryOverRule(IReadOnlyList<decimal> Shares, string Note, Basis Basis, string? Source = null);

/// <summary>Earlier picks are kept while little is lost.</summary>
/// <param name="LossShare">Share of the best set's points that may be lost.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record KeepPicksRule(decimal LossShare, string Note, Basis Basis, string? Source = null);

/// <summary>One row of the order.</summary>
/// <param name="Block">warm-up, power, strength, accessory, trunk or mobility.</param>
/// <param name="Matches">Exercises that one of these is about.</param>
public sealed record BlockRule(string Block, IReadOnlyList<ExerciseMatch> Matches);

/// <summary>Which picks may be done in turn, to save time.</summary>
/// <param name="Blocks">Blocks inside which picks are paired.</param>
/// <param name="Stations">Equipment that holds a place; a pair needs at most one of these.</param>
/// <param name="SharedLoad">Tissue load, 0 to 10, that both may have on one region; above it they would tire the same tissue.</param>
/// <param name="SwitchSeconds">Seconds from one of the pair to the other.</param>
/// <param name="LeastSavedMinutes">Pairs that save less are left alone.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SupersetRule(IReadOnlyList<string> Blocks, IReadOnlyList<string> Stations, decimal SharedLoad, int SwitchSeconds, decimal LeastSavedMinutes, string Note, Basis Basis, string? Source = null);

/// <summary>When the search gives up proving: a safety net, counted so that it falls alike on every machine.</summary>
/// <param name="Nodes">Sets looked at, at most.</param>
/// <param name="Note">Why.</param>
public sealed record SearchRule(int Nodes, string Note);

/// <summary>How much is explained.</summary>
/// <param name="LeftOut">Exercises left out that are told, at most.</param>
/// <param name="MinutesMore">Minutes more that the answer asks again with.</param>
/// <param name="BudgetMoreShare">Share of a budget more that the answer asks again with.</param>
public sealed record SessionExplanationRule(int LeftOut, int MinutesMore, decimal BudgetMoreShare);
