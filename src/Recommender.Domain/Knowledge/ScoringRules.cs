using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/scoring.json: how many points each factor may give or take.</summary>
/// <param name="NeedMatch">Points for qualities that are needed.</param>
/// <param name="Correspondence">Points for likeness to the event.</param>
/// <param name="PhaseFit">Points for suiting the phase.</param>
/// <param name="TissueCost">Points taken for load on sore or worn regions.</param>
/// <param name="Freshness">Points taken for soreness near competition.</param>
/// <param name="MassCost">Points taken where added muscle costs.</param>
/// <param name="SetUp">Points taken for setting up.</param>
/// <param name="Continuity">Points for keeping or changing what was done lately.</param>
/// <param name="Spread">How picks are spread over movement patterns.</param>
/// <param name="Against">How a coach would say what speaks against a pick. Null: only the factor is named.</param>
public sealed record ScoringRules(NeedMatchRule NeedMatch, CorrespondenceRule Correspondence, PhaseFitRule PhaseFit, TissueCostRule TissueCost, FreshnessRule Freshness,
    MassCostRule MassCost, SetUpRule SetUp, ContinuityRule Continuity, SpreadRule Spread, AgainstRule? Against = null);

/// <summary>What is said of the factor that takes most from a pick.</summary>
/// <param name="FromPoints">Said where it takes at least so many points.</param>
/// <param name="Says">Sentences by the factor and the detail that takes most.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where the number comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record AgainstRule(decimal FromPoints, IReadOnlyList<AgainstWords> Says, string Note, Basis Basis, string? Source = null)
{
    /// <summary>The sentence, its gaps unfilled; null where none is written.</summary>
    /// <param name="factor">Factor id.</param>
    /// <param name="code">Code of the detail, with or without what it is about after a colon.</param>
    public string? TextOf(string factor, string code)
    {
        foreach (var words in Says)
        {
            if (words.Factor == factor && code.StartsWith(words.Detail, StringComparison.Ordinal) && (code.Length == words.Detail.Length || code[words.Detail.Length] == ':'))
            {
                return words.Text;
            }
        }

        return null;
    }
}

/// <summary>A sentence of what speaks against a pick.</summary>
/// <param name="Factor">Factor id.</param>
/// <param name="Detail">Code of the detail, without what it is about.</param>
/// <param name="Text">The sentence; {region} and {value} stand for the detail's region and value.</param>
public sealed record AgainstWords(string Factor, string Detail, string Text);

/// <summary>Points for a need: weight x fit of the rating x share of the n-th best x maximum.</summary>
/// <param name="MaxPoints">Points when all needs are met at rating 3.</param>
/// <param name="FitByRating">Fit of ratings 0 to 3, each 0 to 1.</param>
/// <param name="NthShare">Share that the n-th largest contribution of one exercise counts; the last holds for all further ones.</param>
/// <param name="MinPoints">Below this an eligible exercise is not picked: nothing is filled in.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record NeedMatchRule(decimal MaxPoints, IReadOnlyList<decimal> FitByRating, IReadOnlyList<decimal> NthShare, decimal MinPoints, Basis Basis, string? Source = null);

/// <summary>Points for likeness to the event; looks alone are capped by the maximum.</summary>
/// <param name="MaxPoints">Points when support, direction and loading rate all correspond fully.</param>
/// <param name="SupportShare">Share of the maximum for support.</param>
/// <param name="DirectionShare">Share of the maximum for direction.</param>
/// <param name="LoadingRateShare">Share of the maximum for loading rate; the three sum to 1.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record CorrespondenceRule(decimal MaxPoints, decimal SupportShare, decimal DirectionShare, decimal LoadingRateShare, Basis Basis, string? Source = null);

/// <summary>Points for suiting the phase.</summary>
/// <param name="LoadingRate">Loading rate to six points, by phase.</param>
/// <param name="LoadBand">Load band to six points, by phase.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PhaseFitRule(IReadOnlyDictionary<LoadingRate, IReadOnlyList<decimal>> LoadingRate, IReadOnlyDictionary<LoadBand, IReadOnlyList<decimal>> LoadBand, Basis Basis, string? Source = null);

/// <summary>Points taken per region: load / 10 x rate factor x (points for a sore region, grown by pain, or weight at risk x points).</summary>
/// <param name="SorePoints">Points taken at load 10 and pain 10 on a sore region, before the rate factor.</param>
/// <param name="SorePainFloor">Share of those points taken at pain 0; grows evenly to 1 at pain 10.</param>
/// <param name="RiskPoints">Points taken at load 10 on a region at risk of weight 1, before the rate factor.</param>
/// <param name="RateFactor">Factor of each loading rate.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TissueCostRule(decimal SorePoints, decimal SorePainFloor, decimal RiskPoints, IReadOnlyDictionary<LoadingRate, decimal> RateFactor, Basis Basis, string? Source = null);

/// <summary>Points taken for soreness near competition.</summary>
/// <param name="MaxPoints">Points taken for soreness risk 3 on the eve.</param>
/// <param name="BySorenessRisk">Share by soreness risk 0 to 3.</param>
/// <param name="FadesOverWeeks">Evenly falling to nothing so many weeks out.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record FreshnessRule(decimal MaxPoints, IReadOnlyList<decimal> BySorenessRisk, decimal FadesOverWeeks, Basis Basis, string? Source = null);

/// <summary>Points taken for muscle mass where it costs.</summary>
/// <param name="MaxPoints">Points taken at mass cost 1 and rating 3 for muscle mass.</param>
/// <param name="FromAge">Zero below this age, years.</param>
/// <param name="UpperBodyOnlyPatterns">Patterns it holds for.</param>
/// <param name="ZeroWithRedFlags">Zero while one of these general flags is there: signs of too little energy.</param>
/// <param name="ZeroAfterSurgeryMonths">Zero within so many months after an operation, when a limb may be wasted.</param>
/// <param name="ZeroAfterLayoffWeeks">Zero after at least so many weeks off, when muscle may be lost.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record MassCostRule(decimal MaxPoints, int FromAge, IReadOnlyList<string> UpperBodyOnlyPatterns, IReadOnlyList<string> ZeroWithRedFlags, int ZeroAfterSurgeryMonths, decimal ZeroAfterLayoffWeeks, Basis Basis, string? Source = null);

/// <summary>Points taken for setting up.</summary>
/// <param name="PointsPerMinute">Per minute of set-up.</param>
/// <param name="MaxPoints">At most so many.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SetUpRule(decimal PointsPerMinute, decimal MaxPoints, Basis Basis, string? Source = null);

/// <summary>Points for what was done lately.</summary>
/// <param name="SameExercise">By days since the exercise was last done.</param>
/// <param name="SameFamily">By days since another of its family was last done.</param>
/// <param name="Basis">Where the numbers come from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ContinuityRule(IReadOnlyList<DaysStep> SameExercise, IReadOnlyList<DaysStep> SameFamily, Basis Basis, string? Source = null);

/// <summary>Points within a span of days.</summary>
/// <param name="FromDays">First day, inclusive.</param>
/// <param name="ToDays">Last day, inclusive.</param>
/// <param name="Points">Points, may be negative.</param>
/// <param name="Note">Why, for the explanation.</param>
public sealed record DaysStep(int FromDays, int ToDays, decimal Points, string Note);

/// <summary>How picks are spread.</summary>
/// <param name="PatternShare">At most this share of the picks, rounded up, from one movement pattern while others are left.</param>
/// <param name="PurposeShare">At most this share of the picks, rounded up, chosen for one quality while others are left.</param>
/// <param name="AskedShare">Up to this share of the picks, rounded up, is kept for what the coach asked for: one strong exercise for each ask.</param>
/// <param name="Basis">Where the number comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SpreadRule(decimal PatternShare, decimal PurposeShare, decimal AskedShare, Basis Basis, string? Source = null)
{
    /// <summary>Picks of so many that are kept for what the coach asked for.</summary>
    public int Seats(int count) => Of(AskedShare, count);

    /// <summary>Most picks of so many that one movement pattern gives.</summary>
    public int PerPattern(int count) => Of(PatternShare, count);

    /// <summary>Most picks of so many that serve one purpose.</summary>
    public int PerPurpose(int count) => Of(PurposeShare, count);

    private static int Of(decimal share, int count) => (int)decimal.Ceiling(count * share);
}
