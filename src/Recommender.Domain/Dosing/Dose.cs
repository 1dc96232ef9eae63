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
/// <param name="SessionsPerWeek">Sessions a week; 1 where it stands for today alone.</param>
/// <param name="Minutes">Minutes with set-up, warm-up sets, work and rest; one decimal.</param>
/// <param name="Progression">How to go on next week.</param>
/// <param name="StopRule">When to stop.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record Dose(int Sets, decimal Amount, DoseUnit Unit, bool PerSide, Intensity Intensity, decimal? LoadKg, int RestSeconds, string? Tempo, int SessionsPerWeek,
    decimal Minutes, string Progression, string StopRule, Basis Basis, string? Source)
{
    /// <summary>How fast the work is meant.</summary>
    public required string Intent { get; init; }

    /// <summary>Weeks the exercise is kept, unless a rule ends it; 0 to 0 where it stands for today alone.</summary>
    public required WeekSpan KeepWeeks { get; init; }

    /// <summary>Warm-up sets before it; empty where none are needed.</summary>
    public IReadOnlyList<WarmUpSet> WarmUp { get; init; } = [];

    /// <summary>What changed the usual dose today, each with why; empty for the usual dose.</summary>
    public IReadOnlyList<DoseAdjustment> Adjustments { get; init; } = [];

    /// <summary>Where the sides differ, the dose of each; the dose above is then that of the sore or weaker side. Null where both do the same.</summary>
    public DoseSides? Sides { get; init; }
}

/// <summary>Intensity of a dose.</summary>
/// <param name="Kind">From the vocabulary's intensity kinds.</param>
/// <param name="Low">Lower end in the kind's unit, or null.</param>
/// <param name="High">Upper end, or null.</param>
public sealed record Intensity(string Kind, decimal? Low, decimal? High);

/// <summary>A number of weeks.</summary>
/// <param name="From">At least.</param>
/// <param name="To">At most.</param>
public sealed record WeekSpan(int From, int To);

/// <summary>A warm-up set.</summary>
/// <param name="Percent">Percent of the working load.</param>
/// <param name="Reps">Repetitions, each side where the exercise is done a side.</param>
/// <param name="LoadKg">Load, kilograms, for dumbbells each; null when the working load is not known or nothing so light is there.</param>
public sealed record WarmUpSet(int Percent, int Reps, decimal? LoadKg);

/// <summary>A change of the usual dose.</summary>
/// <param name="Code">Permanent id, kebab-case.</param>
/// <param name="Note">What changed and why.</param>
/// <param name="Basis">Where its numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record DoseAdjustment(string Code, string Note, Basis Basis, string? Source);

/// <summary>Doses that differ by side.</summary>
/// <param name="Left">Left.</param>
/// <param name="Right">Right.</param>
public sealed record DoseSides(Dose Left, Dose Right);
