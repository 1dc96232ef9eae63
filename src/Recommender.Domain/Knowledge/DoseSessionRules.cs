using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>How long an exercise is kept.</summary>
/// <param name="From">Weeks at least.</param>
/// <param name="To">Weeks at most.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record KeepWeeksRule(int From, int To, string Note, Basis Basis, string? Source = null);

/// <summary>Warm-up sets before a loaded exercise.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Minutes">Minutes they take; counted in the dose's minutes.</param>
/// <param name="Steps">Sets in order.</param>
/// <param name="Note">What they are.</param>
/// <param name="Basis">Where they come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record WarmUpRule(string Id, decimal Minutes, IReadOnlyList<WarmUpStep> Steps, string Note, Basis Basis, string? Source = null);

/// <summary>One warm-up set.</summary>
/// <param name="Percent">Percent of the working load, 10 to 95.</param>
/// <param name="Reps">Repetitions, each side where the exercise is done a side.</param>
public sealed record WarmUpStep(int Percent, int Reps);

/// <summary>Landings of a session, counted of one foot or of both together.</summary>
/// <param name="Limits">By training age, ascending from 0.</param>
/// <param name="Youth">For young athletes; the lower of both holds.</param>
/// <param name="Classes">Kinds of landing that are counted apart as well.</param>
/// <param name="NotCounted">Running, whose steps are not landings of a jump session.</param>
/// <param name="Note">What the limits are.</param>
/// <param name="Basis">Where they come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ContactRules(IReadOnlyList<ContactLimit> Limits, YouthContacts Youth, IReadOnlyList<ContactClass> Classes, IReadOnlyList<ExerciseMatch> NotCounted, string Note, Basis Basis, string? Source = null);

/// <summary>Landings at most from a training age on.</summary>
/// <param name="FromTrainingAgeYears">From so many years on.</param>
/// <param name="Most">Landings at most.</param>
public sealed record ContactLimit(decimal FromTrainingAgeYears, int Most);

/// <summary>Landings at most of young athletes.</summary>
/// <param name="BelowAge">Below this age, years.</param>
/// <param name="Most">Landings at most.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record YouthContacts(int BelowAge, int Most, string Note, Basis Basis, string? Source = null);

/// <summary>A kind of landing that is counted apart.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Matches">Exercises that one of these is about.</param>
/// <param name="Most">Landings at most.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ContactClass(string Id, IReadOnlyList<ExerciseMatch> Matches, int Most, string Note, Basis Basis, string? Source = null);

/// <summary>What is done where a load is not there.</summary>
/// <param name="DumbbellStepKg">Step between dumbbells where none is said, kilograms.</param>
/// <param name="LightBelow">Share of body mass below which both hands together are light for a load band.</param>
/// <param name="UsualMassKg">Body mass taken where none is said, kilograms.</param>
/// <param name="AmountFactor">Repetitions are multiplied by this.</param>
/// <param name="MostAmount">Repetitions at most.</param>
/// <param name="Tempo">Seconds down-hold-up.</param>
/// <param name="RepsAtPercent">Percent of the one-repetition maximum to the repetitions that can be done.</param>
/// <param name="Reserve">Repetitions left in reserve.</param>
/// <param name="RepsSource">Source of the repetitions.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record KitRules(decimal DumbbellStepKg, IReadOnlyDictionary<LoadBand, decimal> LightBelow, decimal UsualMassKg, decimal AmountFactor, decimal MostAmount, string Tempo,
    IReadOnlyDictionary<int, int> RepsAtPercent, int Reserve, string? RepsSource, string Note, Basis Basis, string? Source = null);
