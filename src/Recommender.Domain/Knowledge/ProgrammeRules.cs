using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/programmes.json: staged loading of a sore region, for grown athletes.</summary>
/// <param name="WithoutProgramme">Fastest loading rate at each stage where a region has no programme of its own.</param>
/// <param name="Programmes">At most one a region.</param>
public sealed record ProgrammeRules(IReadOnlyDictionary<LoadingStage, LoadingRate> WithoutProgramme, IReadOnlyList<Programme> Programmes);

/// <summary>The stages of some regions.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Regions">Regions it holds for.</param>
/// <param name="Tissues">Tissues it builds, where one was sent; another tissue keeps the limits and is not dosed by it.</param>
/// <param name="LatestUnsent">Latest stage taken when none was sent: what comes after asks for tests that a person has to see.</param>
/// <param name="Stages">All four, earliest first.</param>
public sealed record Programme(string Id, IReadOnlyList<string> Regions, IReadOnlyList<string> Tissues, LoadingStage LatestUnsent, IReadOnlyList<ProgrammeStage> Stages)
{
    /// <summary>The stage in force.</summary>
    /// <param name="pain">Pain that counts, 0 to 10.</param>
    /// <param name="sent">Stage that was sent, or null.</param>
    /// <param name="atMost">Latest stage that a clinician allows, or null. It only takes away: an allowed stage is not one that was begun.</param>
    /// <param name="stagesBack">Stages to go back, as when pain rises from week to week.</param>
    /// <returns>The stage sent, or an earlier one that this pain allows; without one, the latest that this pain lets begin; never later than <paramref name="atMost"/>.</returns>
    public ProgrammeStage InForce(int pain, LoadingStage? sent, LoadingStage? atMost, int stagesBack)
    {
        var begun = (int)(sent ?? LatestUnsent);
        var at = Math.Min(begun, (int?)atMost ?? begun);
        while (at > 0 && pain > (sent is null ? Stages[at].EntryMaxPain : Stages[at].StayMaxPain))
        {
            at--;
        }

        return Stages[Math.Max(0, at - stagesBack)];
    }
}

/// <summary>One stage: what may be done, what is built, and by which dose.</summary>
/// <param name="Stage">Stage.</param>
/// <param name="EntryMaxPain">Pain up to which the stage is begun unsent, 0 to 10.</param>
/// <param name="StayMaxPain">Pain up to which the stage is kept when it was sent, 0 to 10; above it an earlier one is worked.</param>
/// <param name="Entry">When it is begun, in plain words.</param>
/// <param name="Exit">When it is left for the next, in plain words.</param>
/// <param name="MaxTissueLoad">Loading rate to the upper load on the region while the stage was sent, beside the limits of pain; 10 is no limit.</param>
/// <param name="Holds">Ids of provocation rules that are held at this stage.</param>
/// <param name="Builds">Quality to weight added when the stage was sent; empty leaves it to the rules by pain.</param>
/// <param name="Treatment">Exercises that the stage gives; they must pass its own limits over <paramref name="TreatmentPain"/>.</param>
/// <param name="TreatmentPain">Lowest and highest pain at which they are given.</param>
/// <param name="Doses">Dose by kind of work; the first that holds for an exercise stands.</param>
/// <param name="Note">What the stage is for.</param>
/// <param name="Basis">Basis of limits and entry.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ProgrammeStage(LoadingStage Stage, int EntryMaxPain, int StayMaxPain, string Entry, string Exit, IReadOnlyDictionary<LoadingRate, decimal> MaxTissueLoad,
    IReadOnlyList<string> Holds, IReadOnlyDictionary<string, decimal> Builds, IReadOnlyList<string> Treatment, IReadOnlyList<int> TreatmentPain,
    IReadOnlyList<StageDose> Doses, string Note, Basis Basis, string? Source = null)
{
    /// <summary>The dose of an exercise that loads the sore region at this stage; null when the stage says nothing about such work.</summary>
    public StageDose? DoseOf(Exercise exercise)
    {
        foreach (var dose in Doses)
        {
            if (dose.HoldsFor(exercise))
            {
                return dose;
            }
        }

        return null;
    }
}

/// <summary>How much of one kind of work a stage gives.</summary>
/// <param name="Id">Kebab-case id, unique over all programmes.</param>
/// <param name="Match">Which exercises.</param>
/// <param name="Unit">Dose unit of the exercises it holds for.</param>
/// <param name="Sets">Sets.</param>
/// <param name="Amount">Reps, seconds, metres or contacts of a set.</param>
/// <param name="Intensity">Intensity.</param>
/// <param name="Tempo">Seconds down-hold-up, or null.</param>
/// <param name="RestSeconds">Rest between sets, seconds.</param>
/// <param name="SessionsPerWeek">Sessions a week.</param>
/// <param name="Steps">How it changes over the weeks of the stage, first week first; empty when it does not. The first step is the dose itself.</param>
/// <param name="Progression">How to go on next week.</param>
/// <param name="StopRule">When to stop.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Note">What is printed and what is ours, or null.</param>
public sealed record StageDose(string Id, ExerciseMatch Match, DoseUnit Unit, int Sets, decimal Amount, StageIntensity Intensity, string? Tempo, int RestSeconds, int SessionsPerWeek,
    IReadOnlyList<StageStep> Steps, string Progression, string StopRule, Basis Basis, string? Source = null, string? Note = null)
{
    /// <summary>Whether it doses the exercise.</summary>
    public bool HoldsFor(Exercise exercise) => exercise.DoseUnit == Unit && Match.Holds(exercise);
}

/// <summary>Intensity of a stage dose.</summary>
/// <param name="Kind">From the vocabulary's intensity kinds.</param>
/// <param name="Low">Lower end in the kind's unit, or null.</param>
/// <param name="High">Upper end, or null.</param>
public sealed record StageIntensity(string Kind, decimal? Low = null, decimal? High = null);

/// <summary>A dose from some week of the stage on.</summary>
/// <param name="FromWeek">Week of the stage, from 1.</param>
/// <param name="Sets">Sets.</param>
/// <param name="Amount">Amount of a set.</param>
/// <param name="SessionsPerWeek">Sessions a week.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="PercentOneRepMax">Load, % of one-repetition maximum, where it was printed.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record StageStep(int FromWeek, int Sets, decimal Amount, int SessionsPerWeek, Basis Basis, decimal? PercentOneRepMax = null, string? Source = null);
