using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Scoring;

/// <summary>A factor's points for one exercise, and what they are made of.</summary>
/// <param name="Factor">Factor id; permanent.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Points">The sum of the details' points.</param>
/// <param name="Basis">The weakest basis among the details; the factor rule's own where there are none.</param>
/// <param name="Source">The source shared by all details, or null.</param>
/// <param name="Details">In a stable order; zero rows are kept.</param>
public sealed record Contribution(string Factor, string Label, Points Points, Basis Basis, string? Source, IReadOnlyList<Detail> Details);

/// <summary>One part of a contribution: a fact, its bound, and the points it brings.</summary>
/// <param name="Code">Permanent id of the part, kebab-case; after a colon the quality, region or other id it is about.</param>
/// <param name="Label">What a person reads.</param>
/// <param name="Points">Points it brings.</param>
/// <param name="Basis">Where its number comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Value">The fact as a number, or null.</param>
/// <param name="Limit">The bound of the fact, or null.</param>
/// <param name="Details">Parts of this part; empty for a leaf.</param>
public sealed record Detail(string Code, string Label, Points Points, Basis Basis, string? Source, decimal? Value, decimal? Limit, IReadOnlyList<Detail> Details)
{
    /// <summary>A leaf.</summary>
    public static Detail Leaf(string code, string label, int thousandths, Basis basis, string? source, decimal? value = null, decimal? limit = null) =>
        new(code, label, new Points(thousandths), basis, source, value, limit, []);
}
