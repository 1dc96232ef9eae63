using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/needs.json.</summary>
/// <param name="Importances">Weight added for each importance a coach may give.</param>
/// <param name="AliasShare">Share of its weight that each quality of an alias gets; more than an even share, since one exercise serves only some of them.</param>
/// <param name="TestsShareCap">What tests may add in total, before scaling to 1.</param>
/// <param name="Complaints">Needs that a complaint brings.</param>
public sealed record NeedRules(IReadOnlyDictionary<string, RuleNumber> Importances, RuleNumber AliasShare, RuleNumber TestsShareCap, IReadOnlyList<ComplaintNeed> Complaints);

/// <summary>A number of a rule.</summary>
/// <param name="Value">The number, in the unit its rule states.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Note">What it stands for, or null.</param>
public sealed record RuleNumber(decimal Value, Basis Basis, string? Source = null, string? Note = null);

/// <summary>What a complaint needs built, not only spared.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Regions">Complaint regions it holds for.</param>
/// <param name="MinPain">Lowest pain, 0 to 10.</param>
/// <param name="MaxPain">Highest pain; above it the region is only spared.</param>
/// <param name="Qualities">Quality to added weight, before scaling to 1.</param>
/// <param name="Note">Why, in one line for the explanation.</param>
/// <param name="Basis">Basis of the weights.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ComplaintNeed(string Id, IReadOnlyList<string> Regions, int MinPain, int MaxPain, IReadOnlyDictionary<string, decimal> Qualities,
    string Note, Basis Basis, string? Source = null);
