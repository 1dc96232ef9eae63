namespace Recommender.Domain.Catalogue;

/// <summary>One word of the vocabulary.</summary>
public record Term
{
    /// <summary>Kebab-case id, permanent.</summary>
    public required string Id { get; init; }

    /// <summary>What a person reads.</summary>
    public required string Label { get; init; }

    /// <summary>One plain sentence.</summary>
    public required string Definition { get; init; }
}

/// <summary>An event, with the group it belongs to.</summary>
public sealed record EventTerm : Term
{
    /// <summary>Event group id.</summary>
    public required string EventGroup { get; init; }
}

/// <summary>A place, with what is usually there.</summary>
public sealed record PlaceTerm : Term
{
    /// <summary>Equipment ids usually at hand; taken when a request names none.</summary>
    public required IReadOnlyList<string> Equipment { get; init; }
}

/// <summary>A region of the body.</summary>
public sealed record RegionTerm : Term
{
    /// <summary>The region whose loads stand in where an exercise states none for this one; null when it stands alone.</summary>
    public string? LeansOn { get; init; }

    /// <summary>Regions that a complaint of this one stands for; empty unless it is a complaint region only.</summary>
    public IReadOnlyList<string> Covers { get; init; } = [];
}

/// <summary>A sign that sends the athlete to a clinician.</summary>
public sealed record RedFlagTerm : Term
{
    /// <summary><c>all</c>: no picks; <c>regions</c>: what loads the region is barred.</summary>
    public required string Scope { get; init; }

    /// <summary>emergency, same-day or within-days.</summary>
    public required string Urgency { get; init; }

    /// <summary>The question in plain words.</summary>
    public required string Question { get; init; }

    /// <summary>Where scope and urgency come from.</summary>
    public required Basis Basis { get; init; }

    /// <summary>Id in data/sources.json, or null.</summary>
    public string? Source { get; init; }
}

/// <summary>A word that stands for several qualities.</summary>
public sealed record QualityAlias : Term
{
    /// <summary>Quality ids it stands for, in order.</summary>
    public required IReadOnlyList<string> Qualities { get; init; }
}
