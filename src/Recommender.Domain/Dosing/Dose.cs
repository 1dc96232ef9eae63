using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Dosing;

/// <summary>How much of an exercise to do.</summary>
/// <param name="Sets">Sets.</param>
/// <param name="Amount">Reps, seconds, metres or contacts of one set.</param>
/// <param name="Unit">Unit of the amount.</param>
/// <param name="PerSide">Whether each side does the amount.</param>
/// <param name="Intensity">Intensity.</param>
/// <param name="LoadKg">Whole load with bar, kilograms, for dumbbells each; null when no maximum is known.</param>
/// <param name="RestSeconds">Rest between sets, seconds.</param>
/// <param name="Tempo">Seconds down-hold-up, or null.</param>
/// <param name="SessionsPerWeek">Sessions a week.</param>
/// <param name="Minutes">Minutes with set-up, work and rest; one decimal.</param>
/// <param name="Progression">How to go on next week.</param>
/// <param name="StopRule">When to stop.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record Dose(int Sets, decimal Amount, DoseUnit Unit, bool PerSide, Intensity Intensity, decimal? LoadKg, int RestSeconds, string? Tempo, int SessionsPerWeek,
    decimal Minutes, string Progression, string StopRule, Basis Basis, string? Source);

/// <summary>Intensity of a dose.</summary>
/// <param name="Kind">From the vocabulary's intensity kinds.</param>
/// <param name="Low">Lower end in the kind's unit, or null.</param>
/// <param name="High">Upper end, or null.</param>
public sealed record Intensity(string Kind, decimal? Low, decimal? High);
