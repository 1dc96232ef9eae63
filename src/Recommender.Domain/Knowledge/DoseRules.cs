using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/dose.json.</summary>
/// <param name="Goals">Quality id to the goal it is dosed for.</param>
/// <param name="LoadingsPerUnit">Loadings of the tissue ledger in one dose unit.</param>
/// <param name="LoadRatios">What an exercise's one-repetition maximum is, as a share of another's.</param>
/// <param name="LoadStepKg">Loads are rounded down to a multiple of this, kilograms.</param>
/// <param name="LightestBarKg">No load below this is told, kilograms.</param>
/// <param name="Rows">First row whose conditions all hold gives the dose.</param>
public sealed record DoseRules(IReadOnlyDictionary<string, string> Goals, IReadOnlyDictionary<DoseUnit, RuleNumber> LoadingsPerUnit, IReadOnlyList<LoadRatio> LoadRatios,
    RuleNumber LoadStepKg, RuleNumber LightestBarKg, IReadOnlyList<DoseRow> Rows);

/// <summary>What a dose depends on beside exercise and quality.</summary>
/// <param name="Phase">Phase.</param>
/// <param name="EventGroup">Event group id.</param>
/// <param name="AgeYears">Age, years.</param>
/// <param name="TrainingAgeYears">Training age, years.</param>
/// <param name="SoreRegions">Complaint regions that are trained on within limits.</param>
public readonly record struct DoseCircumstances(Phase Phase, string EventGroup, int AgeYears, decimal TrainingAgeYears, IReadOnlyList<string> SoreRegions);

/// <summary>Share of a known one-repetition maximum.</summary>
/// <param name="Exercise">Exercise whose maximum is wanted.</param>
/// <param name="Of">Exercise whose maximum is known.</param>
/// <param name="Ratio">Wanted = ratio x known.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record LoadRatio(string Exercise, string Of, decimal Ratio, Basis Basis, string? Source = null);

/// <summary>One line of the dose table. Lists of six run over the phases in their order.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Goals">One of these goals.</param>
/// <param name="Units">One of these dose units.</param>
/// <param name="Match">Which exercises; null for all.</param>
/// <param name="EventGroups">One of these groups; null for all.</param>
/// <param name="MinAgeYears">Age at least this; null for all.</param>
/// <param name="MinTrainingAgeYears">Training age at least this; null for all.</param>
/// <param name="SoreRegions">One of these regions is sore and trained on; null when it does not matter.</param>
/// <param name="Sets">Sets by phase.</param>
/// <param name="MinSets">Fewest sets that are still worth doing.</param>
/// <param name="Amount">Reps, seconds, metres or contacts of a set, by phase.</param>
/// <param name="Intensity">Intensity.</param>
/// <param name="RestSeconds">Rest between sets, seconds.</param>
/// <param name="Tempo">Seconds down-hold-up, or null.</param>
/// <param name="SessionsPerWeek">Sessions a week by phase.</param>
/// <param name="Progression">How to go on next week.</param>
/// <param name="StopRule">When to stop.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Note">What it follows, or null.</param>
public sealed record DoseRow(
    string Id,
    IReadOnlyList<string> Goals,
    IReadOnlyList<DoseUnit> Units,
    ExerciseMatch? Match,
    IReadOnlyList<string>? EventGroups,
    int? MinAgeYears,
    decimal? MinTrainingAgeYears,
    IReadOnlyList<string>? SoreRegions,
    IReadOnlyList<int> Sets,
    int MinSets,
    IReadOnlyList<decimal> Amount,
    DoseRowIntensity Intensity,
    int RestSeconds,
    string? Tempo,
    IReadOnlyList<int> SessionsPerWeek,
    string Progression,
    string StopRule,
    Basis Basis,
    string? Source = null,
    string? Note = null)
{
    /// <summary>Whether the conditions on the exercise hold.</summary>
    public bool HoldsFor(Exercise exercise) => Units.Contains(exercise.DoseUnit) && (Match is null || Match.Holds(exercise));

    /// <summary>Sets of the smallest dose worth doing.</summary>
    public int LeastSets(Phase phase) => Math.Min(MinSets, Sets[(int)phase]);

    /// <summary>Minutes for so many sets: set-up, work on each side, and rest between sets; whole tenths, rounded up.</summary>
    /// <remarks>seconds = sets x amount x seconds per unit + (sets - 1) x rest, as the published session-time estimates reckon it.</remarks>
    public decimal Minutes(Exercise exercise, Phase phase, int sets)
    {
        var sides = exercise.PerSide ? 2 : 1;
        var work = sets * Amount[(int)phase] * exercise.SecondsPerRepetition * sides;
        var rest = (sets - 1) * RestSeconds;
        return exercise.SetUpMinutes + (decimal.Ceiling((work + rest) / 6m) / 10m);
    }
}

/// <summary>Intensity of a dose row.</summary>
/// <param name="Kind">From the vocabulary's intensity kinds.</param>
/// <param name="Low">Lower end by phase, in the kind's unit; null when it has none.</param>
/// <param name="High">Upper end by phase; null when it has none.</param>
public sealed record DoseRowIntensity(string Kind, IReadOnlyList<decimal>? Low = null, IReadOnlyList<decimal>? High = null);
