namespace Recommender.Domain.Catalogue;

/// <summary>How much an exercise trains one quality.</summary>
/// <param name="Value">1 secondary, 2 strong, 3 primary; 0 is left out of the catalogue.</param>
/// <param name="Basis">Where the rating comes from.</param>
/// <param name="Source">Id in data/sources.json; required when published, else optional.</param>
public sealed record QualityRating(int Value, Basis Basis, string? Source = null)
{
    /// <summary>From this rating on an exercise is strong for a quality.</summary>
    public const int Strong = 2;
}
