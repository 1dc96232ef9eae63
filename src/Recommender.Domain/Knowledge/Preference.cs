using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>Whose choices a preference was learned from.</summary>
[JsonConverter(typeof(KebabEnumConverter<PreferenceScope>))]
public enum PreferenceScope
{
    /// <summary>All coaches of an organisation.</summary>
    Organisation,

    /// <summary>One coach; what all coaches share is in the numbers too.</summary>
    Coach,
}

/// <summary>Numbers learned from choices: how the score leans, beside everything else that it weighs.</summary>
/// <param name="Scope">Whose choices.</param>
/// <param name="Choices">How many choices of this scope they rest on: verdicts that stand in a pair.</param>
/// <param name="Pairs">How many pairs of this scope.</param>
/// <param name="Factors">Factor id to the share of the factor's points that is added, at most three decimals; negative takes from them. Ids in ordinal order.</param>
/// <param name="Families">Variant family to points, at most three decimals. Ids in ordinal order; those at 0 are left out.</param>
public sealed record PreferenceNumbers(PreferenceScope Scope, int Choices, int Pairs, IReadOnlyDictionary<string, decimal> Factors, IReadOnlyDictionary<string, decimal> Families);

/// <summary>A version of learned numbers. Immutable.</summary>
/// <param name="version">Hash of the numbers' text.</param>
/// <param name="numbers">The numbers.</param>
public sealed class Preference(string version, PreferenceNumbers numbers)
{
    /// <summary>Hash of the numbers' text.</summary>
    public string Version { get; } = version;

    /// <summary>The numbers.</summary>
    public PreferenceNumbers Numbers { get; } = numbers;
}
