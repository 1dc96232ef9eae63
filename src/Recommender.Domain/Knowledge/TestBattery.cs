using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/tests/battery.json: what each test may read, and which readings raise a need.</summary>
/// <param name="Tests">Tests of the contract.</param>
/// <param name="Thresholds">Readings that raise a need.</param>
public sealed record TestBattery(IReadOnlyList<TestDefinition> Tests, IReadOnlyList<TestThreshold> Thresholds);

/// <summary>What a test may read.</summary>
/// <param name="Id">Field name in a request.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Unit">Unit of the reading.</param>
/// <param name="Min">Lowest possible reading.</param>
/// <param name="Max">Highest possible reading.</param>
/// <param name="Basis">Where the bounds come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TestDefinition(string Id, string Label, string Unit, decimal Min, decimal Max, Basis Basis, string? Source = null);

/// <summary>A reading that raises a need. The worse side counts where a test has sides.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Measure">Test id, or a derived measure's id.</param>
/// <param name="Below">Raises when the reading is below this by more than the error; null when it does not.</param>
/// <param name="Above">Raises when the reading is above this by more than the error; null when it does not.</param>
/// <param name="MeasurementError">Error of the measure in its own unit; nothing inside it is a need.</param>
/// <param name="EventGroups">Groups it holds for; null for all.</param>
/// <param name="Raises">Quality to added weight, before scaling to 1.</param>
/// <param name="Note">What the reading suggests, for the explanation.</param>
/// <param name="Basis">Basis of the threshold.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TestThreshold(string Id, string Measure, decimal? Below, decimal? Above, decimal MeasurementError, IReadOnlyList<string>? EventGroups,
    IReadOnlyDictionary<string, decimal> Raises, string Note, Basis Basis, string? Source = null);
