using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/planning.json: what a season and a group's session are laid out from. It changes no answer.</summary>
/// <param name="Season">Usual lengths of phases.</param>
/// <param name="Sharing">When picks may be traded within a group.</param>
/// <param name="Stations">Places of which there are few.</param>
public sealed record PlanningRules(SeasonRules Season, SharingRules Sharing, StationRules Stations);

/// <summary>Usual lengths of phases up to a main competition.</summary>
/// <param name="Phases">In the order of the year, each once; the last ends with the competition.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SeasonRules(IReadOnlyList<PhaseLength> Phases, string Note, Basis Basis, string? Source = null);

/// <summary>Usual length of a phase.</summary>
/// <param name="Phase">Phase.</param>
/// <param name="Weeks">Whole weeks, above 0.</param>
public sealed record PhaseLength(Phase Phase, int Weeks);

/// <summary>When a pick may be traded for an exercise that others of the group do.</summary>
/// <param name="LossShare">Largest share of the pick's score that may be lost, 0 to 0.5.</param>
/// <param name="LeastLikeness">Least likeness to the pick, 0 to 1.</param>
/// <param name="Most">Most trades offered for one sheet.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SharingRules(decimal LossShare, decimal LeastLikeness, int Most, string Note, Basis Basis, string? Source = null);

/// <summary>Places of which there are few, such as racks.</summary>
/// <param name="Equipment">Equipment ids that make an exercise need one.</param>
/// <param name="AthletesEach">Athletes who share one at a time.</param>
/// <param name="Racks">How many there are when nobody says.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record StationRules(IReadOnlyList<string> Equipment, int AthletesEach, int Racks, string Note, Basis Basis, string? Source = null);
