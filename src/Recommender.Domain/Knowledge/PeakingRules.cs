using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/peaking.json: what stops as the peak nears, and what waits after hard work.</summary>
/// <param name="Windows">Rules by weeks to the competition.</param>
/// <param name="Recovery">Rules by days since the same work was done.</param>
public sealed record PeakingRules(IReadOnlyList<PeakingWindow> Windows, IReadOnlyList<RecoveryWindow> Recovery);

/// <summary>Exercises that are not offered inside a number of weeks before the competition.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="EventGroups">Groups it holds for; null for all.</param>
/// <param name="WeeksBelow">Holds while fewer weeks than this are left.</param>
/// <param name="Match">Which exercises.</param>
/// <param name="UnlessDoneWithinDays">Does not hold for an exercise done within so many days; null when familiarity does not matter.</param>
/// <param name="Note">Why, for the explanation.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PeakingWindow(string Id, IReadOnlyList<string>? EventGroups, decimal WeeksBelow, ExerciseMatch Match, int? UnlessDoneWithinDays,
    string Note, Basis Basis, string? Source = null);

/// <summary>Exercises that wait after the same work was trained: the same family, or whatever several windows hold for the same.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Match">Which exercises.</param>
/// <param name="DaysBelow">Holds while that work was done fewer days ago than this.</param>
/// <param name="Note">Why, for the explanation.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="SharedWith">Ids of windows whose work counts as the same; null for the family alone.</param>
public sealed record RecoveryWindow(string Id, ExerciseMatch Match, int DaysBelow, string Note, Basis Basis, string? Source = null, IReadOnlyList<string>? SharedWith = null);
