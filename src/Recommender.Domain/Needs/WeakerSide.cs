using Recommender.Domain.Requests;

namespace Recommender.Domain.Needs;

/// <summary>A side that several tests show as weaker, beyond error and beyond the event's habit.</summary>
/// <param name="Side">Left or right.</param>
/// <param name="Limb">leg, arm or trunk.</param>
/// <param name="Tests">Tests that show it, in the order of the rules.</param>
/// <param name="Qualities">Qualities that single-side work is to serve.</param>
/// <param name="Regions">Regions of the limb.</param>
/// <param name="ExtraSets">Most extra sets on that side; 0 when a complaint on it comes first.</param>
/// <param name="Note">In a sentence.</param>
public sealed record WeakerSide(Side Side, string Limb, IReadOnlyList<string> Tests, IReadOnlyList<string> Qualities, IReadOnlyList<string> Regions, int ExtraSets, string Note);
