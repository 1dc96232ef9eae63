using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Audit;

/// <summary>Two exercises of one decision beside each other.</summary>
/// <param name="First">Exercise id of the first that was asked about.</param>
/// <param name="Second">Exercise id of the second.</param>
/// <param name="Difference">Points of the first less those of the second; a left-out one has the points it would have had.</param>
/// <param name="Factors">By factor, in the order of the vocabulary; the differences sum to the whole difference.</param>
/// <param name="Above">Exercise id of the one that stands above the other in this decision.</param>
/// <param name="DecidedBy">What decides the order: gates, points, similarity, choice or order.</param>
/// <param name="Deciding">The fewest factors whose differences alone outweigh all that speaks the other way, largest first; empty where points do not decide.</param>
/// <param name="Standings">Where each stands.</param>
/// <param name="Sentence">In one plain sentence.</param>
public sealed record ComparisonAnswer(string First, string Second, Points Difference, IReadOnlyList<ComparedFactor> Factors, string Above, DecidedBy DecidedBy, IReadOnlyList<string> Deciding,
    ComparedStandings Standings, string Sentence);

/// <summary>What decides an order.</summary>
[JsonConverter(typeof(KebabEnumConverter<DecidedBy>))]
public enum DecidedBy
{
    /// <summary>A gate refused one of them; points do not matter then.</summary>
    Gates,

    /// <summary>The one above has more points.</summary>
    Points,

    /// <summary>The one above is more like the replaced exercise; in a substitution.</summary>
    Similarity,

    /// <summary>The one above was chosen although the other has as many points or more: one a family, the spread, what was asked for, or the set as a whole.</summary>
    Choice,

    /// <summary>Nothing between them but the order of ids, or of the session.</summary>
    Order,
}

/// <summary>Points of one factor on both sides.</summary>
/// <param name="Factor">Factor id.</param>
/// <param name="First">Points of the first.</param>
/// <param name="Second">Points of the second.</param>
/// <param name="Difference">First less second.</param>
public sealed record ComparedFactor(string Factor, Points First, Points Second, Points Difference);

/// <summary>Where both stand.</summary>
/// <param name="First">The first.</param>
/// <param name="Second">The second.</param>
public sealed record ComparedStandings(ExerciseStanding First, ExerciseStanding Second);

/// <summary>Where an exercise stands in a decision.</summary>
/// <param name="Name">Trade name.</param>
/// <param name="Place">picked, eligible, left-out, or referred where a referral left nothing open.</param>
/// <param name="Rank">Place among the picks, 1 for the first; null where it is none.</param>
/// <param name="Score">Points it has, or would have had.</param>
/// <param name="Similarity">Likeness to the replaced exercise, 0 to 1, in a substitution; else null.</param>
/// <param name="Refusals">What each gate said that refused it; empty where none did.</param>
/// <param name="NotPickedBecause">Why an eligible one is no pick; else null.</param>
public sealed record ExerciseStanding(string Name, StandingPlace Place, int? Rank, Points Score, decimal? Similarity, IReadOnlyList<Refusal> Refusals, string? NotPickedBecause);

/// <summary>Where an exercise stands.</summary>
[JsonConverter(typeof(KebabEnumConverter<StandingPlace>))]
public enum StandingPlace
{
    /// <summary>Among the picks.</summary>
    Picked,

    /// <summary>Passed every gate and is no pick.</summary>
    Eligible,

    /// <summary>A gate refused it.</summary>
    LeftOut,

    /// <summary>A referral left nothing open.</summary>
    Referred,
}
