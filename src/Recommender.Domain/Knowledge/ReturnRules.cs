using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/return.json: earlier injuries, time off, and clinicians' clearances.</summary>
/// <param name="History">What an earlier injury adds to the needs.</param>
/// <param name="Layoffs">What time off does to the dose; the first whose conditions hold.</param>
/// <param name="Clearances">What a clearance for a general flag still leaves out.</param>
/// <param name="LayoffHolds">What waits in the first week back after time off; all whose conditions hold. Null: nothing waits.</param>
/// <param name="Protective">What an earlier or present injury keeps in the programme. Null: nothing.</param>
public sealed record ReturnRules(HistoryRule History, IReadOnlyList<LayoffRule> Layoffs, IReadOnlyList<ClearanceRule> Clearances, IReadOnlyList<LayoffHold>? LayoffHolds = null,
    IReadOnlyList<ProtectiveRule>? Protective = null);

/// <summary>What waits in the first week back.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Reasons">break, illness, injury; null for all.</param>
/// <param name="WeeksFrom">At least so many weeks off.</param>
/// <param name="Refuses">Exercises that one of these is about.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record LayoffHold(string Id, IReadOnlyList<string>? Reasons, decimal WeeksFrom, IReadOnlyList<ExerciseMatch> Refuses, string Note, Basis Basis, string? Source = null)
{
    /// <summary>Whether it holds after so many weeks off for this reason.</summary>
    public bool HoldsAfter(decimal weeks, string reason) => weeks >= WeeksFrom && (Reasons is null || Reasons.Contains(reason, StringComparer.Ordinal));
}

/// <summary>Exercises one of which is picked while a region is sore or was hurt.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Regions">Regions.</param>
/// <param name="WithinMonths">An earlier injury of them counts for so many months; 0 for a present complaint only.</param>
/// <param name="Exercises">Exercise ids; the best ranked is picked.</param>
/// <param name="Note">Why, said beside the pick.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Kinds">Kinds of present complaint it is for: pain, soreness, stiffness; null for pain and stiffness.</param>
public sealed record ProtectiveRule(string Id, IReadOnlyList<string> Regions, int WithinMonths, IReadOnlyList<string> Exercises, string Note, Basis Basis, string? Source = null,
    IReadOnlyList<string>? Kinds = null);

/// <summary>A region that was hurt before keeps a protective need, less as time goes by.</summary>
/// <param name="Steps">By months since, ascending; past the last nothing is added.</param>
/// <param name="SurgeryAdds">Added to the share after an operation, while any share is left.</param>
/// <param name="SurgeryWithinMonths">Months that an operation counts at all, at the last step's share.</param>
/// <param name="WeightCap">Most that all earlier injuries add together, before scaling to 1.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record HistoryRule(IReadOnlyList<HistoryStep> Steps, decimal SurgeryAdds, int SurgeryWithinMonths, decimal WeightCap, string Note, Basis Basis, string? Source = null)
{
    /// <summary>Share of a settled complaint's needs that an earlier injury brings, 0 to 1.</summary>
    public decimal ShareOf(int monthsAgo, bool surgery)
    {
        var share = Steps.FirstOrDefault(s => monthsAgo < s.MonthsBelow)?.Share ?? (surgery && monthsAgo < SurgeryWithinMonths ? Steps[^1].Share : 0);
        return surgery && share > 0 ? share + SurgeryAdds : share;
    }
}

/// <summary>Share of a settled complaint's needs by time.</summary>
/// <param name="MonthsBelow">Fewer months ago than this.</param>
/// <param name="Share">Share, 0 to 1.</param>
public sealed record HistoryStep(int MonthsBelow, decimal Share);

/// <summary>What time off does.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Reasons">break, illness, injury; null for all.</param>
/// <param name="WeeksFrom">At least so many weeks off.</param>
/// <param name="VolumeShare">Share of the usual volume in the first week back, 0 to 1.</param>
/// <param name="WeeksOfRamp">Weeks until the usual volume.</param>
/// <param name="NoFailure">Whether no set goes to failure during the ramp.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record LayoffRule(string Id, IReadOnlyList<string>? Reasons, decimal WeeksFrom, decimal VolumeShare, int WeeksOfRamp, bool NoFailure, string Note, Basis Basis, string? Source = null);

/// <summary>A general flag that a clinician may clear.</summary>
/// <param name="Flag">Red-flag id.</param>
/// <param name="ValidDays">A clearance older than this has lapsed, days.</param>
/// <param name="Holds">Exercises that stay out even so, unless the clinician says more in person.</param>
/// <param name="Note">What the athlete and coach mind.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ClearanceRule(string Flag, int ValidDays, IReadOnlyList<ExerciseMatch> Holds, string Note, Basis Basis, string? Source = null);
