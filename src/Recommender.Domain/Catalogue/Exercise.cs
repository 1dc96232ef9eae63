namespace Recommender.Domain.Catalogue;

/// <summary>One entry of the catalogue.</summary>
/// <param name="Id">Trade name in kebab-case; permanent.</param>
/// <param name="Name">Trade name as coaches say it.</param>
/// <param name="Synonyms">Other trade names; unique over the catalogue.</param>
/// <param name="Family">Variant family: forms of one another share it.</param>
/// <param name="Pattern">Movement pattern, from the vocabulary.</param>
/// <param name="Support">How the body stands.</param>
/// <param name="Direction">Direction of the main force, from the vocabulary.</param>
/// <param name="Contraction">How the muscles work, from the vocabulary.</param>
/// <param name="LoadBand">The load for which the ratings hold.</param>
/// <param name="LoadingRate">How quickly tissue is loaded.</param>
/// <param name="Qualities">Quality id to rating; qualities that are not trained are left out.</param>
/// <param name="TissueLoad">Region id to load on one working limb; a region that is left out, and leans on none, is not loaded.</param>
/// <param name="Facts">Plain facts.</param>
/// <param name="FactsBasis">Basis shared by the facts, times, complexity and soreness risk.</param>
/// <param name="Equipment">Alternatives; each is the set of things needed together. An empty set needs nothing.</param>
/// <param name="Places">Places where it can be done, from the vocabulary.</param>
/// <param name="Complexity">1 anyone on day one, 2 some coaching, 3 a season of practice, 4 expert coaching.</param>
/// <param name="Competences">Competences without which it is not offered.</param>
/// <param name="SorenessRisk">0 none to 3 likely sore for days when new.</param>
/// <param name="SetUpMinutes">Minutes to set up, loading the bar included.</param>
/// <param name="SecondsPerRepetition">Seconds for one dose unit.</param>
/// <param name="DoseUnit">What it is counted in.</param>
/// <param name="PerSide">Whether each side is done apart.</param>
/// <param name="ImpactContacts">Landings in one dose unit; above 0 exactly when the loading rate is impact.</param>
/// <param name="Progressions">Harder next steps, exercise ids.</param>
/// <param name="Regressions">Easier steps, exercise ids; the mirror of the progressions.</param>
/// <param name="HowTo">Set-up and movement in one line.</param>
/// <param name="Cues">Two or three coaching cues.</param>
/// <param name="Faults">Common faults.</param>
/// <param name="Cautions">Cautions to be shown with it; may be empty.</param>
public sealed record Exercise(
    string Id,
    string Name,
    IReadOnlyList<string> Synonyms,
    string Family,
    string Pattern,
    Support Support,
    string Direction,
    string Contraction,
    LoadBand LoadBand,
    LoadingRate LoadingRate,
    IReadOnlyDictionary<string, QualityRating> Qualities,
    IReadOnlyDictionary<string, TissueLoad> TissueLoad,
    ExerciseFacts Facts,
    Basis FactsBasis,
    IReadOnlyList<IReadOnlyList<string>> Equipment,
    IReadOnlyList<string> Places,
    int Complexity,
    IReadOnlyList<string> Competences,
    int SorenessRisk,
    decimal SetUpMinutes,
    decimal SecondsPerRepetition,
    DoseUnit DoseUnit,
    bool PerSide,
    int ImpactContacts,
    IReadOnlyList<string> Progressions,
    IReadOnlyList<string> Regressions,
    string HowTo,
    IReadOnlyList<string> Cues,
    IReadOnlyList<string> Faults,
    IReadOnlyList<string> Cautions)
{
    /// <summary>Loadings of the tissue ledger in one dose unit; set from the rules when an edition is read, never in the file.</summary>
    public decimal? LoadingsPerUnit { get; init; }
}
