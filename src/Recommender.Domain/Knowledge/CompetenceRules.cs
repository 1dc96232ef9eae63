using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/competence.json: what an athlete may be asked to do.</summary>
/// <param name="ByTrainingAge">Competences taken as given when a request names none, by training age, ascending.</param>
/// <param name="TrainingAgeByComplexity">Years of training that each complexity asks for.</param>
/// <param name="Ages">Exercises not offered below or from an age on.</param>
/// <param name="LearnedAfter">Which competences are usually learned after which; nothing is let in by it, the answer asks. Null in data from before it was there.</param>
public sealed record CompetenceRules(
    IReadOnlyList<TrainingAgeCompetences> ByTrainingAge, IReadOnlyList<ComplexityStep> TrainingAgeByComplexity, IReadOnlyList<AgeRule> Ages, IReadOnlyList<LearningOrder>? LearnedAfter = null);

/// <summary>A competence that is usually learned after another.</summary>
/// <param name="Competence">Competence id.</param>
/// <param name="After">Competence id of what is usually learned before it; not the same.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record LearningOrder(string Competence, string After, Basis Basis, string? Source = null);

/// <summary>Competences from a training age on.</summary>
/// <param name="FromYears">Training age in years.</param>
/// <param name="Competences">All that are taken as given from then on.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TrainingAgeCompetences(decimal FromYears, IReadOnlyList<string> Competences, Basis Basis, string? Source = null);

/// <summary>Training age that a complexity asks for.</summary>
/// <param name="Complexity">1 to 4.</param>
/// <param name="Years">Training age in years.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ComplexityStep(int Complexity, decimal Years, Basis Basis, string? Source = null);

/// <summary>Exercises not offered below or from an age on, unless training age makes up for it.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="BelowAge">Holds below this age, years; null when it is about the older.</param>
/// <param name="FromAge">Holds from this age on, years; null when it is about the younger.</param>
/// <param name="Match">Which exercises.</param>
/// <param name="UnlessTrainingAgeYears">Does not hold from this training age on; null when nothing makes up for it.</param>
/// <param name="Note">Why, for the explanation.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="InSpurt">Whether it holds in a growth spurt too, whatever the age.</param>
public sealed record AgeRule(string Id, int? BelowAge, int? FromAge, ExerciseMatch Match, decimal? UnlessTrainingAgeYears, string Note, Basis Basis, string? Source = null, bool InSpurt = false);
