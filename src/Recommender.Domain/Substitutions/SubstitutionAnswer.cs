using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Dosing;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Explanations;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Substitutions;

/// <summary>What may stand in for an exercise.</summary>
public sealed record SubstitutionAnswer : IDecided
{
    /// <inheritdoc/>
    public required string DecisionId { get; init; }

    /// <inheritdoc/>
    public required AnswerStatus Status { get; init; }

    /// <summary>The replaced exercise.</summary>
    public required ReplacedExercise Replaced { get; init; }

    /// <summary>How many exercises passed every gate.</summary>
    public required int EligibleCount { get; init; }

    /// <summary>What may stand in, best first.</summary>
    public required IReadOnlyList<Substitute> Picks { get; init; }

    /// <summary>Limits that complaints and restrictions put on tissue load.</summary>
    public required IReadOnlyList<Limit> Limits { get; init; }

    /// <summary>What was left out, and why.</summary>
    public required LeftOut LeftOut { get; init; }

    /// <summary>What the athlete needs; weights sum to 1.</summary>
    public required IReadOnlyList<NeedLine> Needs { get; init; }

    /// <summary>What was taken because the request left it out.</summary>
    public required IReadOnlyList<Assumption> Assumed { get; init; }

    /// <summary>A referral to a clinician, or null.</summary>
    public required Referral? Referral { get; init; }

    /// <summary>What a person should read first.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <inheritdoc/>
    public required VersionStamp Versions { get; init; }

    /// <inheritdoc/>
    string? IDecided.Top => Picks.Count > 0 ? Picks[0].Exercise.Id : null;

    /// <inheritdoc/>
    IReadOnlyList<string> IDecided.Exercises => [.. Picks.Select(p => p.Exercise.Id).Concat(Replaced.Exercise is { } replaced ? [replaced] : [])];
}

/// <summary>The exercise that is replaced.</summary>
/// <param name="Exercise">Its id, or null when it was described.</param>
/// <param name="Name">Its name.</param>
/// <param name="PurposeQuality">The quality it was there for.</param>
/// <param name="Dose">What it would have been dosed at; null when it was described, or where a clinician doses.</param>
public sealed record ReplacedExercise(string? Exercise, string Name, string PurposeQuality, Dose? Dose);

/// <summary>A pick that stands in for another exercise.</summary>
public sealed record Substitute : Pick
{
    /// <param name="pick">The pick.</param>
    public Substitute(Pick pick)
        : base(pick)
    {
    }

    /// <summary>As it is read back from a record.</summary>
    [JsonConstructor]
    public Substitute(int rank, ExerciseBrief exercise, Points score, IReadOnlyList<Contribution> contributions, Dose? dose, IReadOnlyDictionary<string, TissueLoad> tissueLoad,
        IReadOnlyList<string> why, IReadOnlyList<string> cautions, EvidenceShare evidence)
        : base(rank, exercise, score, contributions, dose, tissueLoad, why, cautions, evidence)
    {
    }

    /// <summary>What it keeps, in the trade's words.</summary>
    public required IReadOnlyList<string> Keeps { get; init; }

    /// <summary>What it loses.</summary>
    public required IReadOnlyList<string> Loses { get; init; }

    /// <summary>What it adds.</summary>
    public required IReadOnlyList<string> Gains { get; init; }

    /// <summary>Likeness to the replaced exercise, 0 to 1, three decimals.</summary>
    public required decimal Similarity { get; init; }
}
