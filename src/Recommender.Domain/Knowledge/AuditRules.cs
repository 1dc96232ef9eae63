using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/audit.json: how a decision is asked again.</summary>
/// <param name="Counterfactuals">Changes of a request that are tried.</param>
/// <param name="Sensitivity">How numbers are varied.</param>
/// <param name="Coverage">What the report of coverage asks; null in versions from before it was told.</param>
public sealed record AuditRules(CounterfactualRules Counterfactuals, SensitivityRules Sensitivity, CoverageRules? Coverage = null);

/// <summary>Which changes are tried.</summary>
/// <param name="Edits">Kinds of change; one that is left out is not tried.</param>
/// <param name="Offered">How many are offered for each aim.</param>
/// <param name="OfferedBasis">Where that number comes from; null in versions from before it was told.</param>
public sealed record CounterfactualRules(IReadOnlyList<EditRule> Edits, int Offered, RuleBasis? OfferedBasis = null);

/// <summary>A kind of change.</summary>
/// <param name="Kind">equipment, need, weeks, place, pain or phase.</param>
/// <param name="Cost">Cost of one step.</param>
/// <param name="Most">Most steps tried; null where steps do not count.</param>
/// <param name="Note">What a step is, and why it costs that.</param>
/// <param name="Basis">Where the cost comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record EditRule(string Kind, int Cost, int? Most, string Note, Basis Basis, string? Source = null);

/// <summary>How numbers are varied to see how firm a first place is.</summary>
/// <param name="Samples">Samples drawn.</param>
/// <param name="Seed">Start of the generator.</param>
/// <param name="WithoutInterval">Share by which a number without an interval moves, up or down.</param>
/// <param name="ImportanceStep">By how much of ten an importance of an event profile moves, up or down.</param>
/// <param name="RatingMoves">Share of draws in which a rating moves by one step, up as often as down; a step off the scale stays.</param>
/// <param name="Contenders">How many of the best as they stand are drawn for.</param>
/// <param name="Rivals">How many of those that came first instead are told.</param>
/// <param name="Moves">How many numbers are told that move the first place most.</param>
/// <param name="Note">Why so.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SensitivityRules(int Samples, int Seed, decimal WithoutInterval, decimal ImportanceStep, decimal RatingMoves, int Contenders, int Rivals, int Moves, string Note, Basis Basis, string? Source = null);

/// <summary>What the report of how far the catalogue reaches asks.</summary>
/// <param name="Places">Places.</param>
/// <param name="Complaints">Region ids of the complaints; the cell without a complaint is always asked.</param>
/// <param name="Pain">Pain of a complaint, 0 to 10.</param>
/// <param name="AgeYears">Age of the athlete.</param>
/// <param name="TrainingAgeYears">Years of strength training; competences follow from them.</param>
/// <param name="TopNeeds">How many of the heaviest needs are looked at.</param>
/// <param name="Least">Fewer eligible exercises than this are thin.</param>
/// <param name="Note">Why so.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record CoverageRules(IReadOnlyList<CoveragePlace> Places, IReadOnlyList<string> Complaints, int Pain, int AgeYears, decimal TrainingAgeYears, int TopNeeds, int Least, string Note, Basis Basis,
    string? Source = null);

/// <summary>A place with what is at hand there.</summary>
/// <param name="Place">Place id.</param>
/// <param name="Equipment">Equipment ids; null for what is usual there.</param>
public sealed record CoveragePlace(string Place, IReadOnlyList<string>? Equipment = null);
