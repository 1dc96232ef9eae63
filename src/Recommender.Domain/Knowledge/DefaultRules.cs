using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/defaults.json: what is taken when a request leaves it out.</summary>
/// <param name="WeeksByPhase">Usual weeks to the competition, by phase.</param>
/// <param name="Place">Place id.</param>
/// <param name="TrainingAgeYears">Training age of a novice, years.</param>
/// <param name="AdultAgeYears">Age that stands for an adult, years.</param>
/// <param name="Count">How many picks.</param>
/// <param name="NearestCount">How many near misses are told.</param>
/// <param name="SmallSpaceMetres">Free floor length that a small space still has, metres.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record DefaultRules(IReadOnlyList<decimal> WeeksByPhase, string Place, decimal TrainingAgeYears, int AdultAgeYears, int Count, int NearestCount, decimal SmallSpaceMetres,
    Basis Basis, string? Source = null);
