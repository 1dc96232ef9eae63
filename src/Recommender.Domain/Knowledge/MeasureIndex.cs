using System.Collections.Frozen;

namespace Recommender.Domain.Knowledge;

/// <summary>Definitions of tests and derived measures by id. A measure that is about an exercise carries its id after a slash.</summary>
/// <param name="battery">The battery.</param>
public sealed class MeasureIndex(TestBattery battery)
{
    private readonly FrozenDictionary<string, TestDefinition> tests = battery.Tests.ToFrozenDictionary(t => t.Id, StringComparer.Ordinal);
    private readonly FrozenDictionary<string, DerivedDefinition> derived = battery.Derived.ToFrozenDictionary(d => d.Id, StringComparer.Ordinal);

    /// <summary>Thresholds of measures that are about one exercise, with its id.</summary>
    public IReadOnlyList<(string Exercise, TestThreshold Threshold)> OfExercises { get; } =
        [.. battery.Thresholds.Where(t => t.Measure.Contains('/', StringComparison.Ordinal) && battery.Tests.All(test => test.Id != t.Measure)).Select(t => (t.Measure[(t.Measure.IndexOf('/', StringComparison.Ordinal) + 1)..], t))];

    /// <summary>The test of this id, or null.</summary>
    public TestDefinition? Test(string id) => tests.GetValueOrDefault(id);

    /// <summary>The definition of a derived measure.</summary>
    /// <exception cref="KeyNotFoundException">The battery does not define it.</exception>
    public DerivedDefinition Derived(string measure) => derived[measure.IndexOf('/', StringComparison.Ordinal) is >= 0 and var slash ? measure[..slash] : measure];

    /// <summary>Unit of a measure, sent or derived.</summary>
    /// <exception cref="KeyNotFoundException">The battery does not define it.</exception>
    public string UnitOf(string measure) => Test(measure)?.Unit ?? Derived(measure).Unit;
}
