namespace Recommender.Domain.Catalogue;

/// <summary>Every id that requests, answers and the catalogue may use. Lists keep their order; it fixes bit and column positions.</summary>
public sealed record Vocabulary
{
    /// <summary>Event groups.</summary>
    public required Terms<Term> EventGroups { get; init; }

    /// <summary>Events.</summary>
    public required Terms<EventTerm> Events { get; init; }

    /// <summary>Phases of the year.</summary>
    public required Terms<Term> Phases { get; init; }

    /// <summary>Qualities that training develops.</summary>
    public required Terms<Term> Qualities { get; init; }

    /// <summary>Words that stand for several qualities.</summary>
    public required Terms<QualityAlias> Aliases { get; init; }

    /// <summary>Regions of the body.</summary>
    public required Terms<RegionTerm> Regions { get; init; }

    /// <summary>Kinds of support.</summary>
    public required Terms<Term> Supports { get; init; }

    /// <summary>Loading rates.</summary>
    public required Terms<Term> LoadingRates { get; init; }

    /// <summary>Load bands.</summary>
    public required Terms<Term> LoadBands { get; init; }

    /// <summary>Movement patterns.</summary>
    public required Terms<Term> Patterns { get; init; }

    /// <summary>Directions of the main force.</summary>
    public required Terms<Term> Directions { get; init; }

    /// <summary>Ways in which muscles work.</summary>
    public required Terms<Term> Contractions { get; init; }

    /// <summary>Equipment; at most 64 terms.</summary>
    public required Terms<Term> Equipment { get; init; }

    /// <summary>Places; at most 64 terms.</summary>
    public required Terms<PlaceTerm> Places { get; init; }

    /// <summary>Limits of a setting.</summary>
    public required Terms<Term> SettingLimits { get; init; }

    /// <summary>Red flags.</summary>
    public required Terms<RedFlagTerm> RedFlags { get; init; }

    /// <summary>Competences; at most 64 terms.</summary>
    public required Terms<Term> Competences { get; init; }

    /// <summary>Importances of a need.</summary>
    public required Terms<Term> Importances { get; init; }

    /// <summary>Units of dose.</summary>
    public required Terms<Term> DoseUnits { get; init; }

    /// <summary>Kinds of intensity.</summary>
    public required Terms<Term> IntensityKinds { get; init; }

    /// <summary>Reasons of refusal.</summary>
    public required Terms<Term> Reasons { get; init; }

    /// <summary>Factors of the score.</summary>
    public required Terms<Term> Factors { get; init; }

    /// <summary>Bases of a number.</summary>
    public required Terms<Term> Bases { get; init; }

    /// <summary>Verdicts on a pick.</summary>
    public required Terms<Term> Verdicts { get; init; }

    /// <summary>Kinds of complaint.</summary>
    public required Terms<Term> ComplaintKinds { get; init; }

    /// <summary>Tissues that may hurt.</summary>
    public required Terms<Term> Tissues { get; init; }

    /// <summary>Stages of a loading programme, earliest first.</summary>
    public required Terms<Term> LoadingStages { get; init; }

    /// <summary>What provokes a complaint.</summary>
    public required Terms<Term> Provocations { get; init; }
}
