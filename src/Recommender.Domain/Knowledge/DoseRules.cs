using System.Globalization;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/dose.json.</summary>
/// <param name="Goals">Quality id to the goal it is dosed for.</param>
/// <param name="LoadingsPerUnit">Loadings of the tissue ledger in one dose unit.</param>
/// <param name="LoadRatios">What an exercise's one-repetition maximum is, as a share of another's.</param>
/// <param name="LoadStepKg">Loads are rounded down to a multiple of this, kilograms.</param>
/// <param name="LightestBarKg">No load below this is told, kilograms.</param>
/// <param name="TreatmentLoad">Load on a sore region, 0 to 10, from which an exercise is dosed by the region's programme, beside those that the stage names.</param>
/// <param name="TaperProgrammeShare">Share of a programme's sets that is done in a taper.</param>
/// <param name="Intents">Goal to how fast the work is meant.</param>
/// <param name="IntentsBasis">Where those come from.</param>
/// <param name="KeepWeeks">How long an exercise is kept.</param>
/// <param name="WarmUps">Warm-up sets that rows may ask for.</param>
/// <param name="Contacts">Landings of a session.</param>
/// <param name="Kit">What is done where a load is not there.</param>
/// <param name="Rows">First row whose conditions all hold gives the dose.</param>
/// <param name="IntentsInstead">Where exercise or tempo says how fast the work is meant, and the goal does not; the first that holds. Null for nowhere.</param>
public sealed record DoseRules(IReadOnlyDictionary<string, string> Goals, IReadOnlyDictionary<DoseUnit, RuleNumber> LoadingsPerUnit, IReadOnlyList<LoadRatio> LoadRatios,
    RuleNumber LoadStepKg, RuleNumber LightestBarKg, RuleNumber TreatmentLoad, RuleNumber TaperProgrammeShare, IReadOnlyDictionary<string, string> Intents, RuleBasis IntentsBasis, KeepWeeksRule KeepWeeks, IReadOnlyList<WarmUpRule> WarmUps,
    ContactRules Contacts, KitRules Kit, IReadOnlyList<DoseRow> Rows, IReadOnlyList<IntentRule>? IntentsInstead = null)
{
    /// <summary>How fast the work is meant.</summary>
    /// <param name="exercise">Exercise.</param>
    /// <param name="tempo">Seconds down-hold-up, or null.</param>
    /// <param name="quality">Id of the quality it is done for.</param>
    public string IntentOf(Exercise exercise, string? tempo, string quality)
    {
        var goal = Goals[quality];
        if (IntentsInstead is not null)
        {
            foreach (var rule in IntentsInstead)
            {
                if (rule.Holds(exercise, tempo, goal))
                {
                    return Intents[rule.Intent];
                }
            }
        }

        return Intents[goal];
    }

    /// <summary>The warm-up sets of a row, or null.</summary>
    public WarmUpRule? WarmUpOf(DoseRow row) => row.WarmUp is { } id ? WarmUps.First(w => w.Id == id) : null;
}

/// <summary>An intent that exercise or tempo ask for, whatever the goal's own says.</summary>
/// <param name="Goals">Goals whose intent would contradict them.</param>
/// <param name="Intent">Key of the intent that is told instead.</param>
/// <param name="Match">Which exercises; null for all.</param>
/// <param name="RaisingSecondsAtLeast">Holds where the tempo raises for so many seconds or more; null when the tempo does not matter.</param>
public sealed record IntentRule(IReadOnlyList<string> Goals, string Intent, ExerciseMatch? Match = null, int? RaisingSecondsAtLeast = null)
{
    /// <summary>Whether it speaks of this work.</summary>
    /// <param name="exercise">Exercise.</param>
    /// <param name="tempo">Seconds down-hold-up, or null.</param>
    /// <param name="goal">Goal.</param>
    public bool Holds(Exercise exercise, string? tempo, string goal) =>
        Goals.Contains(goal, StringComparer.Ordinal) && Match?.Holds(exercise) != false
        && (RaisingSecondsAtLeast is not { } least || (tempo is not null && int.Parse(tempo.AsSpan(tempo.LastIndexOf('-') + 1), CultureInfo.InvariantCulture) >= least));
}

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
/// <param name="WarmUp">Id of the warm-up sets before it, or null.</param>
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
    string? Note = null,
    string? WarmUp = null)
{
    /// <summary>Whether the conditions on the exercise hold.</summary>
    public bool HoldsFor(Exercise exercise) => Units.Contains(exercise.DoseUnit) && (Match is null || Match.Holds(exercise));

    /// <summary>Sets of the smallest dose worth doing.</summary>
    public int LeastSets(Phase phase) => Math.Min(MinSets, Sets[(int)phase]);
}

/// <summary>Intensity of a dose row.</summary>
/// <param name="Kind">From the vocabulary's intensity kinds.</param>
/// <param name="Low">Lower end by phase, in the kind's unit; null when it has none.</param>
/// <param name="High">Upper end by phase; null when it has none.</param>
public sealed record DoseRowIntensity(string Kind, IReadOnlyList<decimal>? Low = null, IReadOnlyList<decimal>? High = null);
