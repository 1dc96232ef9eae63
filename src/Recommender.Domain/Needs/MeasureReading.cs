using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>One value of one measure.</summary>
/// <param name="Measure">Measure id.</param>
/// <param name="Value">Rounded value.</param>
/// <param name="Side">Side, or null.</param>
/// <param name="From">Tests of the request behind it.</param>
/// <param name="Derived">Whether it was reckoned; false for one that was sent.</param>
/// <param name="Sound">False when it is shown and yet cannot raise anything.</param>
/// <param name="Detail">What the measure is about beside its id, such as an exercise's name; null for none.</param>
internal sealed record MeasureReading(string Measure, decimal Value, Side? Side, IReadOnlyList<string> From, bool Derived, bool Sound, string? Detail = null);
