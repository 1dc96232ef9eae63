using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>One file of data/event-profiles: an event group's phases and events.</summary>
/// <param name="EventGroup">Event group id.</param>
/// <param name="DefaultEvent">The event taken when a request names the group only.</param>
/// <param name="PhaseEmphasis">How the phase moves the importance of each quality.</param>
/// <param name="Events">The group's events.</param>
public sealed record EventGroupProfile(string EventGroup, string DefaultEvent, PhaseEmphasis PhaseEmphasis, IReadOnlyList<EventProfile> Events);

/// <summary>Multipliers of the event's importances.</summary>
/// <param name="Basis">Basis of every multiplier here.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Note">What they follow.</param>
/// <param name="Default">Multiplier of a quality that a phase does not name.</param>
/// <param name="Phases">Phase to quality to multiplier: 1 holds, above rises, below falls, 0 is not trained.</param>
public sealed record PhaseEmphasis(Basis Basis, string? Source, string Note, decimal Default,
    IReadOnlyDictionary<Phase, IReadOnlyDictionary<string, decimal>> Phases);

/// <summary>What an event asks of accessory work.</summary>
/// <param name="Event">Event id.</param>
/// <param name="Note">One line.</param>
/// <param name="Basis">Basis of every number here that states none of its own.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="SingleSupportShare">Share of the event's force made on one leg, 0 to 1.</param>
/// <param name="Qualities">Quality id to importance, 0 to 10.</param>
/// <param name="Correspondence">How like the event each support, direction and loading rate is.</param>
/// <param name="RegionsAtRisk">Regions that the event wears.</param>
/// <param name="MassCost">How much added upper-body muscle costs, 0 to 1.</param>
public sealed record EventProfile(string Event, string Note, Basis Basis, string? Source, decimal SingleSupportShare,
    IReadOnlyDictionary<string, decimal> Qualities, Correspondence Correspondence, IReadOnlyList<RegionAtRisk> RegionsAtRisk, decimal MassCost);

/// <summary>Likeness to the event, 0 to 1 each, as the dynamic-correspondence criteria name them.</summary>
/// <param name="Support">By support id.</param>
/// <param name="Direction">By direction id.</param>
/// <param name="LoadingRate">By loading rate.</param>
public sealed record Correspondence(IReadOnlyDictionary<Support, decimal> Support, IReadOnlyDictionary<string, decimal> Direction,
    IReadOnlyDictionary<LoadingRate, decimal> LoadingRate);

/// <summary>A region that the event wears.</summary>
/// <param name="Region">Region id.</param>
/// <param name="Weight">0 to 1.</param>
/// <param name="Basis">Basis of the weight.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Support">Id of a study that shows the region at risk without giving the weight, or null.</param>
public sealed record RegionAtRisk(string Region, decimal Weight, Basis Basis, string? Source = null, string? Support = null);
