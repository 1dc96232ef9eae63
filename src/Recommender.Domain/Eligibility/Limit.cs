using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Eligibility;

/// <summary>A limit in force on one region.</summary>
/// <param name="Region">Region id.</param>
/// <param name="Side">Sore side.</param>
/// <param name="LoadingRate">Loading rate it holds for.</param>
/// <param name="MaxTissueLoad">Upper tissue load that passes, 0 to 10; 10 is no limit.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record Limit(string Region, Side Side, LoadingRate LoadingRate, decimal MaxTissueLoad, Basis Basis, string? Source);
