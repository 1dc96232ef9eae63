using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/substitution.json: how alike two exercises are, and how a dose carries over.</summary>
/// <param name="Shares">Shares of the parts, summing to 1.</param>
/// <param name="SharesBasis">Where they come from.</param>
/// <param name="Purpose">How purpose is compared.</param>
/// <param name="PatternKin">Patterns that are alike.</param>
/// <param name="SupportKin">Supports that are alike.</param>
/// <param name="ContractionElse">Likeness of different contractions, 0 to 1.</param>
/// <param name="RateByDistance">Likeness of loading rates by steps apart, 0 to 3.</param>
/// <param name="BandByDistance">Likeness of load bands by steps apart, 0 to 3.</param>
/// <param name="LikenessBasis">Where the likenesses come from.</param>
/// <param name="KeepsFrom">Purpose is kept from this share on.</param>
/// <param name="OfferedFrom">Below this share of the purpose nothing is offered while something keeps it.</param>
/// <param name="NearestFrom">Below this share of the purpose nothing is offered at all.</param>
/// <param name="NearestAtMost">How many are offered when nothing keeps the purpose.</param>
/// <param name="Count">How many are offered where no count is sent.</param>
/// <param name="OfferBasis">Where those bounds come from.</param>
/// <param name="Order">What changes the order beside likeness.</param>
/// <param name="Dose">How a dose carries over.</param>
/// <param name="Residuals">How long qualities last without training.</param>
/// <param name="ResidualsBasis">Where the days come from.</param>
/// <param name="BodyParts">What trains the same part of the body; an exercise that is of no common part and of no kin pattern is not offered. Null: everything may be.</param>
/// <param name="BodyPartsBasis">Where those parts come from.</param>
/// <param name="LeastLikeness">What is less alike than this, 0 to 1, is not offered whatever of the purpose it keeps.</param>
public sealed record SubstitutionRules(LikenessShares Shares, RuleBasis SharesBasis, PurposeRule Purpose, IReadOnlyList<Kin> PatternKin, IReadOnlyList<Kin> SupportKin, decimal ContractionElse,
    IReadOnlyList<decimal> RateByDistance, IReadOnlyList<decimal> BandByDistance, RuleBasis LikenessBasis, decimal KeepsFrom, decimal OfferedFrom, decimal NearestFrom, int NearestAtMost, int Count, RuleBasis OfferBasis, SubstitutionOrder Order,
    CarriedDose Dose, IReadOnlyList<Residual> Residuals, RuleBasis ResidualsBasis, IReadOnlyList<BodyPartRule>? BodyParts = null, RuleBasis? BodyPartsBasis = null, decimal LeastLikeness = 0);

/// <summary>A part of the body, by what trains it.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Patterns">Movement patterns that are of this part.</param>
/// <param name="Qualities">Whatever is strong for one of these is of this part too, whatever its pattern.</param>
public sealed record BodyPartRule(string Id, IReadOnlyList<string> Patterns, IReadOnlyList<string> Qualities);

/// <summary>Shares of the parts of likeness; sum 1.</summary>
/// <param name="Purpose">What it is there for.</param>
/// <param name="Pattern">Movement pattern.</param>
/// <param name="Support">Support.</param>
/// <param name="Direction">Direction of force.</param>
/// <param name="Contraction">Contraction.</param>
/// <param name="LoadingRate">How fast force comes.</param>
/// <param name="LoadBand">How heavy.</param>
/// <param name="Family">The same variant family, or neighbours on a ladder of progressions.</param>
public sealed record LikenessShares(decimal Purpose, decimal Pattern, decimal Support, decimal Direction, decimal Contraction, decimal LoadingRate, decimal LoadBand, decimal Family);

/// <summary>How purpose is compared.</summary>
/// <param name="KeptShare">By what of the old purpose the new one keeps; the rest by how alike both are.</param>
/// <param name="FloorWeight">Weight of a quality that nothing asks for, beside the needs' weights that sum to 1.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PurposeRule(decimal KeptShare, decimal FloorWeight, string Note, Basis Basis, string? Source = null);

/// <summary>A pair that is alike, in both directions.</summary>
/// <param name="Of">Two ids.</param>
/// <param name="Likeness">0 to 1.</param>
public sealed record Kin(IReadOnlyList<string> Of, decimal Likeness);

/// <summary>What changes the order beside likeness; thousandths.</summary>
/// <param name="SorePerLoad">With pain as the reason: for each whole load on a sore region.</param>
/// <param name="HarderPerStep">With competence as the reason: for each step of complexity above the replaced exercise.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SubstitutionOrder(int SorePerLoad, int HarderPerStep, string Note, Basis Basis, string? Source = null);

/// <summary>How a dose carries over to a lighter exercise.</summary>
/// <param name="ByStep">By steps lighter, from one on; the last holds for more.</param>
/// <param name="MostAmount">Repetitions at most.</param>
/// <param name="LessReserve">Repetitions in reserve less.</param>
/// <param name="LeastReserve">Repetitions in reserve at least.</param>
/// <param name="Tempo">Seconds down-hold-up.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="LeavesAlone">Exercises that keep their own dose, whatever they stand in for; null for none.</param>
public sealed record CarriedDose(IReadOnlyList<LighterStep> ByStep, decimal MostAmount, decimal LessReserve, decimal LeastReserve, string Tempo, string Note, Basis Basis, string? Source = null,
    IReadOnlyList<ExerciseMatch>? LeavesAlone = null);

/// <summary>Repetitions where the load is so many steps lighter.</summary>
/// <param name="Factor">Times the old repetitions.</param>
/// <param name="Least">At least so many.</param>
public sealed record LighterStep(decimal Factor, decimal Least);

/// <summary>How long qualities last without training.</summary>
/// <param name="Qualities">Quality ids.</param>
/// <param name="Days">Days.</param>
public sealed record Residual(IReadOnlyList<string> Qualities, int Days);
