using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/outcomes.json: what is learned from what was done with picks, and the bounds of it.</summary>
/// <param name="Caution">How pain after work lowers an athlete's limits.</param>
/// <param name="Bounds">How far a learned preference may move a score.</param>
/// <param name="Pairs">How many pairs of choices there must be.</param>
/// <param name="Position">How likely a place of a list is looked at.</param>
/// <param name="Fit">How the numbers are fitted.</param>
/// <param name="Publication">When what was learned is put in force.</param>
public sealed record OutcomeRules(CautionRule Caution, PreferenceBounds Bounds, PairRule Pairs, PositionRule Position, PreferenceFitRule Fit, PublicationRule Publication);

/// <summary>How pain after work lowers an athlete's limits.</summary>
/// <param name="RiseDuring">Rise of pain during the work that counts, points of 0 to 10.</param>
/// <param name="RiseNextMorning">Rise next morning, over the pain before the work, that counts.</param>
/// <param name="LoadedFrom">Regions count that the exercise loads at least so much at the upper end of the interval.</param>
/// <param name="Share">Share of the exercise's upper load that is left as the limit, for its loading rate and faster ones; below 1.</param>
/// <param name="Days">Days it holds, counted from the report; the last day included.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record CautionRule(int RiseDuring, int RiseNextMorning, decimal LoadedFrom, decimal Share, int Days, string Note, Basis Basis, string? Source = null);

/// <summary>How far a learned preference may move a score.</summary>
/// <param name="MostPoints">Most points that it adds to or takes from an exercise.</param>
/// <param name="OnlyGrow">Factors whose points may only grow in size.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PreferenceBounds(decimal MostPoints, IReadOnlyList<string> OnlyGrow, string Note, Basis Basis, string? Source = null);

/// <summary>How many pairs of choices there must be.</summary>
/// <param name="Least">Before anything is learned.</param>
/// <param name="LeastOfCoach">Of one coach, before that coach has numbers of their own.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PairRule(int Least, int LeastOfCoach, string Note, Basis Basis, string? Source = null);

/// <summary>How likely a place of a list is looked at: 1 / place ^ exponent.</summary>
/// <param name="Exponent">0 is alike everywhere.</param>
/// <param name="MostWeight">Most that a choice weighs for its place, at least 1.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PositionRule(decimal Exponent, decimal MostWeight, string Note, Basis Basis, string? Source = null);

/// <summary>How the numbers of a preference are fitted.</summary>
/// <param name="Shrinkage">Weight of half the square of each number against the log likelihood of all pairs.</param>
/// <param name="CoachShare">Variance that a coach's own part of a number may have, as a share of that of the organisation's; above 0, at most 1.</param>
/// <param name="LeastPointsPerUnit">Least points for one unit of log odds.</param>
/// <param name="MostPointsPerUnit">Most points for one unit of log odds.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PreferenceFitRule(decimal Shrinkage, decimal CoachShare, decimal LeastPointsPerUnit, decimal MostPointsPerUnit, string Note, Basis Basis, string? Source = null);

/// <summary>When what was learned is put in force: the gain on later decisions is above zero at the lower end of its interval.</summary>
/// <param name="TestShare">Share of the decisions, the latest, that test.</param>
/// <param name="Top">Places that the gain of an order is counted over.</param>
/// <param name="Resamples">How often decisions are drawn again.</param>
/// <param name="Confidence">Share of the resamples inside the interval.</param>
/// <param name="Seed">Seed of the draws.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PublicationRule(decimal TestShare, int Top, int Resamples, decimal Confidence, int Seed, string Note, Basis Basis, string? Source = null);
