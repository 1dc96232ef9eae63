using Recommender.Domain.Requests;

namespace Recommender.Domain.Substitutions;

/// <summary>What instead of an exercise?</summary>
public sealed record SubstitutionRequest
{
    /// <summary>Exercise id; instead of a description.</summary>
    public string? Exercise { get; init; }

    /// <summary>An exercise that the catalogue does not know, by its tags; instead of an id.</summary>
    public DescribedExercise? Described { get; init; }

    /// <summary>equipment, pain, space, variety or competence. Left out: no reason is weighed.</summary>
    public string? Reason { get; init; }

    /// <summary>The athlete and the situation, as in a recommendation but without count. Required.</summary>
    public RecommendationRequest? Context { get; init; }

    /// <summary>How many, 1 to 30. Left out: 5.</summary>
    public int? Count { get; init; }
}

/// <summary>Several substitutions at once.</summary>
public sealed record SubstitutionBatch
{
    /// <summary>Requests, 1 to 500, answered in order.</summary>
    public IReadOnlyList<SubstitutionRequest>? Requests { get; init; }
}

/// <summary>An exercise by its tags.</summary>
public sealed record DescribedExercise
{
    /// <summary>What it is called; shown in sentences only, up to 100 characters.</summary>
    public string? Name { get; init; }

    /// <summary>Movement pattern id. Required.</summary>
    public string? Pattern { get; init; }

    /// <summary>Support id. Required.</summary>
    public string? Support { get; init; }

    /// <summary>Quality id to rating, 1 to 3; at least one. Required.</summary>
    public IReadOnlyDictionary<string, int>? Qualities { get; init; }

    /// <summary>Direction id. Left out: not compared.</summary>
    public string? Direction { get; init; }

    /// <summary>Contraction id. Left out: not compared.</summary>
    public string? Contraction { get; init; }

    /// <summary>isometric, slow, fast or impact. Left out: not compared.</summary>
    public string? LoadingRate { get; init; }

    /// <summary>unloaded, light, moderate or heavy. Left out: not compared.</summary>
    public string? LoadBand { get; init; }
}
