using System.Globalization;

namespace Recommender.Domain.Catalogue;

/// <summary>Exercises for which a tissue-load model may be fitted or used. Everything stated must hold.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Because">Why the borders are where they are.</param>
/// <param name="Patterns">Pattern ids.</param>
/// <param name="ExceptFamilies">Families outside though their pattern is inside; may be empty.</param>
/// <param name="Supports">Supports.</param>
/// <param name="LoadBands">Load bands.</param>
/// <param name="LoadingRates">Loading rates.</param>
/// <param name="Directions">Direction ids.</param>
/// <param name="ContactTimes">Contact times, as in the facts.</param>
/// <param name="KneeFlexionDeg">Knee flexion, degrees.</param>
/// <param name="ShankLeanDeg">Shank lean, degrees; a shank held upright by a strap, a wall or a box is outside.</param>
/// <param name="BodyweightShare">Share of body weight on the working leg.</param>
/// <param name="ExternalLoadShare">External load over body weight.</param>
/// <param name="DropHeightCm">Height dropped from, centimetres.</param>
/// <param name="JumpHeightCm">Height jumped, centimetres.</param>
public sealed record TissueLoadDomain(
    string Id,
    string Because,
    IReadOnlyList<string> Patterns,
    IReadOnlyList<string> ExceptFamilies,
    IReadOnlyList<Support> Supports,
    IReadOnlyList<LoadBand> LoadBands,
    IReadOnlyList<LoadingRate> LoadingRates,
    IReadOnlyList<string> Directions,
    IReadOnlyList<string> ContactTimes,
    FactRange KneeFlexionDeg,
    FactRange ShankLeanDeg,
    FactRange BodyweightShare,
    FactRange ExternalLoadShare,
    FactRange DropHeightCm,
    FactRange JumpHeightCm)
{
    /// <summary>Whether the exercise lies inside.</summary>
    public bool Holds(Exercise exercise) => OutsideBecause(exercise) is null;

    /// <summary>The first border that the exercise lies beyond, in plain words; null inside.</summary>
    public string? OutsideBecause(Exercise exercise)
    {
        var facts = exercise.Facts;
        return Listed("pattern", exercise.Pattern, Patterns)
            ?? (ExceptFamilies.Contains(exercise.Family) ? $"family is {exercise.Family}" : null)
            ?? Listed("support", exercise.Support, Supports)
            ?? Listed("load band", exercise.LoadBand, LoadBands)
            ?? Listed("loading rate", exercise.LoadingRate, LoadingRates)
            ?? Listed("direction", exercise.Direction, Directions)
            ?? Listed("contact time", facts.ContactTime, ContactTimes)
            ?? Within("external load share", facts.ExternalLoadShare, ExternalLoadShare)
            ?? Within("share of body weight", facts.BodyweightShare, BodyweightShare)
            ?? Within("knee flexion", facts.KneeFlexionDeg, KneeFlexionDeg)
            ?? Within("shank lean", facts.ShankLeanDeg, ShankLeanDeg)
            ?? Within("drop height", facts.DropHeightCm, DropHeightCm)
            ?? Within("jump height", facts.JumpHeightCm, JumpHeightCm);
    }

    private static string? Listed<T>(string what, T value, IReadOnlyList<T> listed) where T : notnull =>
        listed.Contains(value) ? null : $"{what} is {value.ToString()!.ToLowerInvariant()}, not {string.Join(" or ", listed).ToLowerInvariant()}";

    private static string? Within(string what, decimal value, FactRange range) =>
        value >= range.Min && value <= range.Max ? null : string.Create(CultureInfo.InvariantCulture, $"{what} is {value}, outside {range.Min} to {range.Max}");
}

/// <summary>From and to, both included, in the unit of the fact.</summary>
/// <param name="Min">Smallest.</param>
/// <param name="Max">Largest.</param>
public sealed record FactRange(decimal Min, decimal Max);
