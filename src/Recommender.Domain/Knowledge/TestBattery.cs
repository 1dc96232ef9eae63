using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/tests/battery.json: what each test may read, what is derived from them, and which readings raise a need.</summary>
/// <param name="Tests">Tests of the contract.</param>
/// <param name="Derived">Measures that are derived, and findings as numbers.</param>
/// <param name="Thresholds">Readings that raise a need.</param>
/// <param name="Sides">When a difference between the sides counts.</param>
/// <param name="Use">What a result must be like to be used.</param>
public sealed record TestBattery(IReadOnlyList<TestDefinition> Tests, IReadOnlyList<DerivedDefinition> Derived, IReadOnlyList<TestThreshold> Thresholds, SideRules Sides, TestUse Use);

/// <summary>What a test may read.</summary>
/// <param name="Id">Field name in a request.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Unit">Unit of the reading.</param>
/// <param name="Min">Lowest possible reading.</param>
/// <param name="Max">Highest possible reading.</param>
/// <param name="Basis">Where the bounds come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TestDefinition(string Id, string Label, string Unit, decimal Min, decimal Max, Basis Basis, string? Source = null);

/// <summary>A measure derived from tests, or a finding as a number.</summary>
/// <param name="Id">camelCase id; that of a test when the same measure may be sent.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Unit">Unit of the value.</param>
/// <param name="Decimals">Places it is rounded to before it meets a threshold.</param>
/// <param name="Formula">How it is reckoned, in words.</param>
/// <param name="Basis">Where the formula comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Min">Below this the tests behind it do not fit together; null when the test of the same id, or nothing, says so.</param>
/// <param name="Max">Above this they do not.</param>
public sealed record DerivedDefinition(string Id, string Label, string Unit, int Decimals, string Formula, Basis Basis, string? Source = null, decimal? Min = null, decimal? Max = null)
{
    /// <summary>A value rounded to the stated places, without zeros at its end, so that it is written the same however it was reckoned.</summary>
    public decimal Round(decimal value) => decimal.Round(value, Decimals, MidpointRounding.AwayFromZero) / 1.0000000000000000000000000000m;
}

/// <summary>A reading that raises a need. The worse side counts where a test has sides.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Measure">Test id, or a derived measure's id.</param>
/// <param name="Below">Raises when the reading is below this by more than the error; null when it does not.</param>
/// <param name="Above">Raises when the reading is above this by more than the error; null when it does not.</param>
/// <param name="MeasurementError">Error of the measure in its own unit; nothing inside it is a need.</param>
/// <param name="EventGroups">Groups it holds for; null for all.</param>
/// <param name="Raises">Quality to added weight, before scaling to 1.</param>
/// <param name="Note">What the reading suggests, for the explanation.</param>
/// <param name="Basis">Basis of the bound.</param>
/// <param name="Source">Source id of the bound, or null.</param>
/// <param name="ErrorBasis">Basis of the measurement error.</param>
/// <param name="ErrorSource">Source id of the error, or null.</param>
/// <param name="Sex">female or male when it holds for one; null for both.</param>
/// <param name="MinAgeYears">Age from which it holds; null for all.</param>
/// <param name="MaxAgeYears">Age to which it holds; null for all.</param>
/// <param name="Norms">Bounds of a sex and age, before the general one; none when null.</param>
public sealed record TestThreshold(string Id, string Measure, decimal? Below, decimal? Above, decimal MeasurementError, IReadOnlyList<string>? EventGroups,
    IReadOnlyDictionary<string, decimal> Raises, string Note, Basis Basis, string? Source = null, Basis ErrorBasis = Basis.CommonPractice, string? ErrorSource = null,
    string? Sex = null, int? MinAgeYears = null, int? MaxAgeYears = null, IReadOnlyList<ThresholdNorm>? Norms = null);

/// <summary>The bound of a threshold for one sex and age, where the published norm differs.</summary>
/// <param name="Bound">The bound, in the unit of the measure.</param>
/// <param name="Sex">female or male; null for both.</param>
/// <param name="MinAgeYears">Lowest age; null for none.</param>
/// <param name="MaxAgeYears">Highest age; null for none.</param>
public sealed record ThresholdNorm(decimal Bound, string? Sex = null, int? MinAgeYears = null, int? MaxAgeYears = null);
