using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/questions.json: which red flags a person is asked about. It changes no answer; any flag may be sent.</summary>
/// <param name="Sets">What is asked by what hurts; each region stands in exactly one.</param>
/// <param name="General">Red flags asked about the athlete as a whole.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record QuestionRules(IReadOnlyList<QuestionSet> Sets, IReadOnlyList<string> General, string Note, Basis Basis, string? Source = null)
{
    /// <summary>What is asked about a region.</summary>
    /// <exception cref="InvalidOperationException">The region is not in the vocabulary.</exception>
    public QuestionSet Of(string region) => Sets.First(s => s.Regions.Contains(region, StringComparer.Ordinal));
}

/// <summary>What is asked when one of some regions hurts.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Label">The regions as they stand in a sentence.</param>
/// <param name="Regions">Region ids.</param>
/// <param name="Flags">Four or five red-flag ids, most urgent first.</param>
/// <param name="Growing">A red flag asked about beside them when the athlete is still growing, or null.</param>
/// <param name="Note">What is looked for.</param>
public sealed record QuestionSet(string Id, string Label, IReadOnlyList<string> Regions, IReadOnlyList<string> Flags, string? Growing, string Note);
