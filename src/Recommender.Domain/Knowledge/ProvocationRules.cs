using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/provocation.json: which exercises do what a complaint is provoked by.</summary>
/// <param name="Rules">At most 64. Several of one provocation add up: an exercise that meets any of them is held.</param>
/// <param name="Builds">What is built around a region that a movement provokes.</param>
public sealed record ProvocationRules(IReadOnlyList<ProvocationRule> Rules, IReadOnlyList<ProvocationBuild> Builds);

/// <summary>One kind of exercise that is held while a region is provoked so.</summary>
/// <param name="Id">Kebab-case id; stages and the acute rule hold exercises by it.</param>
/// <param name="ProvokedBy">Provocation of the vocabulary that brings it in; null when only a stage or the acute rule does.</param>
/// <param name="Regions">Complaint regions it holds for; null for all.</param>
/// <param name="Match">Which exercises.</param>
/// <param name="SoreLoadAtLeast">Only those that load the sore region at least so much, 0 to 10; 0 for all.</param>
/// <param name="Note">What is held, as a coach would say it after "no".</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ProvocationRule(string Id, string? ProvokedBy, IReadOnlyList<string>? Regions, ExerciseMatch Match, decimal SoreLoadAtLeast, string Note, Basis Basis, string? Source = null)
{
    /// <summary>Whether it is about a complaint of this region.</summary>
    public bool IsAbout(string region) => Regions is null || Regions.Contains(region, StringComparer.Ordinal);
}

/// <summary>What a region that is provoked by a movement needs built.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="ProvokedBy">Provocation of the vocabulary.</param>
/// <param name="Regions">Complaint regions it holds for.</param>
/// <param name="MaxPain">Highest pain; above it the region is only spared.</param>
/// <param name="Qualities">Quality to weight added, before scaling to 1.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ProvocationBuild(string Id, string ProvokedBy, IReadOnlyList<string> Regions, int MaxPain, IReadOnlyDictionary<string, decimal> Qualities, string Note, Basis Basis, string? Source = null);
