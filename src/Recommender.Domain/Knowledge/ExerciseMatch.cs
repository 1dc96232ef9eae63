using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>Which exercises a rule is about. Conditions that are absent do not count; those present must all hold.</summary>
/// <param name="Patterns">One of these patterns.</param>
/// <param name="LoadBands">One of these load bands.</param>
/// <param name="LoadingRates">One of these loading rates.</param>
/// <param name="Contractions">One of these contractions.</param>
/// <param name="SorenessRiskAtLeast">Soreness risk at least this, 0 to 3.</param>
/// <param name="ComplexityAtLeast">Complexity at least this, 1 to 4.</param>
/// <param name="DropHeightCmAtLeast">Drop height at least this, centimetres.</param>
/// <param name="Competences">Asks for one of these competences.</param>
/// <param name="Qualities">Rated at least so high for one of these qualities.</param>
/// <param name="Exercises">One of these exercise ids.</param>
/// <param name="Supports">One of these kinds of support.</param>
/// <param name="Directions">One of these directions of the main force.</param>
/// <param name="KneeFlexionDegAtLeast">Knee bent at least so far at the deepest point, degrees.</param>
/// <param name="KneeFlexionDegAtMost">Knee bent at most so far at the deepest point, degrees.</param>
/// <param name="HipFlexionDegAtLeast">Hip bent at least so far at the deepest point, degrees.</param>
/// <param name="AnkleDorsiflexionDegAtLeast">Ankle bent at least so far at the deepest point, degrees.</param>
/// <param name="TrunkLeanDegAtLeast">Trunk at least so far from the vertical, degrees.</param>
/// <param name="TissueLoadAtLeast">States an upper load of at least so much on each of these regions; a borrowed load does not count.</param>
public sealed record ExerciseMatch(
    IReadOnlyList<string>? Patterns = null,
    IReadOnlyList<LoadBand>? LoadBands = null,
    IReadOnlyList<LoadingRate>? LoadingRates = null,
    IReadOnlyList<string>? Contractions = null,
    int? SorenessRiskAtLeast = null,
    int? ComplexityAtLeast = null,
    decimal? DropHeightCmAtLeast = null,
    IReadOnlyList<string>? Competences = null,
    IReadOnlyDictionary<string, int>? Qualities = null,
    IReadOnlyList<string>? Exercises = null,
    IReadOnlyList<Support>? Supports = null,
    IReadOnlyList<string>? Directions = null,
    decimal? KneeFlexionDegAtLeast = null,
    decimal? KneeFlexionDegAtMost = null,
    decimal? HipFlexionDegAtLeast = null,
    decimal? AnkleDorsiflexionDegAtLeast = null,
    decimal? TrunkLeanDegAtLeast = null,
    IReadOnlyDictionary<string, decimal>? TissueLoadAtLeast = null)
{
    /// <summary>Whether the exercise meets every condition that is present.</summary>
    public bool Holds(Exercise e) =>
        (Patterns is null || Patterns.Contains(e.Pattern, StringComparer.Ordinal))
        && (LoadBands is null || LoadBands.Contains(e.LoadBand))
        && (LoadingRates is null || LoadingRates.Contains(e.LoadingRate))
        && (Contractions is null || Contractions.Contains(e.Contraction, StringComparer.Ordinal))
        && !(e.SorenessRisk < SorenessRiskAtLeast)
        && !(e.Complexity < ComplexityAtLeast)
        && !(e.Facts.DropHeightCm < DropHeightCmAtLeast)
        && (Competences is null || Competences.Any(c => e.Competences.Contains(c, StringComparer.Ordinal)))
        && (Qualities is null || Qualities.Any(q => e.Qualities.TryGetValue(q.Key, out var rating) && rating.Value >= q.Value))
        && (Exercises is null || Exercises.Contains(e.Id, StringComparer.Ordinal))
        && (Supports is null || Supports.Contains(e.Support))
        && (Directions is null || Directions.Contains(e.Direction, StringComparer.Ordinal))
        && !(e.Facts.KneeFlexionDeg < KneeFlexionDegAtLeast)
        && !(e.Facts.KneeFlexionDeg > KneeFlexionDegAtMost)
        && !(e.Facts.HipFlexionDeg < HipFlexionDegAtLeast)
        && !(e.Facts.AnkleDorsiflexionDeg < AnkleDorsiflexionDegAtLeast)
        && !(e.Facts.TrunkLeanDeg < TrunkLeanDegAtLeast)
        && (TissueLoadAtLeast is null || TissueLoadAtLeast.All(t => e.TissueLoad.TryGetValue(t.Key, out var load) && load.High >= t.Value));
}
