using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>What a reading says against a bound.</summary>
[JsonConverter(typeof(KebabEnumConverter<ThresholdVerdict>))]
public enum ThresholdVerdict
{
    /// <summary>Clear of the bound on the good side, or a difference that is the event's habit.</summary>
    NoNeed,

    /// <summary>Within the error of the bound, from a single trial, not borne out by a second test, or unsound.</summary>
    CannotTell,

    /// <summary>Beyond the bound by more than the error.</summary>
    Need,
}

/// <summary>A measure that was derived from tests, or a test held against a threshold.</summary>
/// <param name="Name">Id of the measure; with an exercise after a slash where it is about one.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Value">Its value, rounded.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Side">left or right where it is of one side, and the weaker side of a difference; null otherwise.</param>
/// <param name="Formula">How it was reckoned; as measured when it was sent.</param>
/// <param name="Source">Source id of the formula, or null.</param>
/// <param name="Threshold">The threshold that says most about it, or null.</param>
/// <param name="Raises">Quality ids that it raises; empty when it raises none.</param>
public sealed record DerivedMeasure(string Name, string Label, decimal Value, string Unit, Side? Side, string Formula, string? Source, ThresholdMet? Threshold, IReadOnlyList<string> Raises);

/// <summary>A threshold and what a reading says against it.</summary>
/// <param name="Id">Id of the rule.</param>
/// <param name="Direction">below or above: where a need begins.</param>
/// <param name="Bound">The bound for this athlete, in the unit of the measure.</param>
/// <param name="MeasurementError">Error of the measure, in the same unit.</param>
/// <param name="Verdict">need, no-need or cannot-tell.</param>
/// <param name="Note">What it suggests, in plain words.</param>
/// <param name="Adds">Quality id to weight that the measure adds, by this threshold and others it meets, before all needs are scaled to 1; empty when it adds nothing.</param>
/// <param name="Basis">Basis of the bound.</param>
/// <param name="Source">Source id of the bound, or null.</param>
public sealed record ThresholdMet(string Id, string Direction, decimal Bound, decimal MeasurementError, ThresholdVerdict Verdict, string Note, IReadOnlyDictionary<string, decimal> Adds,
    Basis Basis, string? Source);
