namespace Recommender.Domain.Catalogue;

/// <summary>How much an exercise loads one region of one working limb.</summary>
/// <param name="Value">0 to 10: ten times a published loading index where one exists, else 10 is the highest task read for that tissue.</param>
/// <param name="Low">Lower end of the interval, at most <paramref name="Value"/>.</param>
/// <param name="High">Upper end of the interval, at least <paramref name="Value"/>; gates look at this one.</param>
/// <param name="Basis">Where the value comes from.</param>
/// <param name="Source">Id in data/sources.json; required when published, else optional.</param>
public sealed record TissueLoad(decimal Value, decimal Low, decimal High, Basis Basis, string? Source = null);
