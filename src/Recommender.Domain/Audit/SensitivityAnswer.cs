using Recommender.Domain.Catalogue;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>How firm the first place is while the numbers that nobody printed move inside their intervals.</summary>
/// <param name="First">Exercise id of the first pick; null where there is none.</param>
/// <param name="FirstPlaceShare">Share of the samples in which it stays first, 0 to 1; null where there is no first pick.</param>
/// <param name="TopThreeShare">Share of the samples in which at most two others are above it, 0 to 1; null where there is no first pick.</param>
/// <param name="Samples">Samples drawn.</param>
/// <param name="Seed">Start of the generator: the same seed on the same versions gives the same samples.</param>
/// <param name="Varied">How many numbers were varied, by basis.</param>
/// <param name="Rivals">What came first instead, most often first.</param>
/// <param name="Moves">The numbers that move the first place most, each moved alone to the ends of its interval.</param>
/// <param name="Meaning">What first means here, and what was left as it is.</param>
/// <param name="Sentence">In one plain sentence.</param>
public sealed record SensitivityAnswer(string? First, decimal? FirstPlaceShare, decimal? TopThreeShare, int Samples, int Seed, VariedCounts Varied, IReadOnlyList<Rival> Rivals, IReadOnlyList<NumberMove> Moves, string Meaning, string Sentence);

/// <summary>How many numbers were varied.</summary>
/// <param name="Modelled">From the tissue-load model.</param>
/// <param name="CommonPractice">Agreed among practitioners.</param>
/// <param name="Recalled">From memory.</param>
/// <param name="Held">Left as they stand: published ones, and those whose interval is a point.</param>
public sealed record VariedCounts(int Modelled, int CommonPractice, int Recalled, int Held);

/// <summary>An exercise that came first instead.</summary>
/// <param name="Exercise">Exercise id.</param>
/// <param name="Share">Share of the samples in which it did, 0 to 1.</param>
public sealed record Rival(string Exercise, decimal Share);

/// <summary>What a number does to the first place.</summary>
/// <param name="Number">Where it stands in the data.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Low">The lower end it was moved to.</param>
/// <param name="High">The upper end it was moved to.</param>
/// <param name="AheadAtLow">By how much the first is ahead of the best other at the lower end, in points; negative where it is behind.</param>
/// <param name="AheadAtHigh">The same at the upper end.</param>
/// <param name="FirstAtLow">Exercise id that is first at the lower end.</param>
/// <param name="FirstAtHigh">Exercise id that is first at the upper end.</param>
public sealed record NumberMove(string Number, Basis Basis, decimal Low, decimal High, Points AheadAtLow, Points AheadAtHigh, string FirstAtLow, string FirstAtHigh);
