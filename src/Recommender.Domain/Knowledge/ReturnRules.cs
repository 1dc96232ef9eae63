using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/return.json: earlier injuries, time off, and clinicians' clearances.</summary>
/// <param name="History">What an earlier injury adds to the needs.</param>
/// <param name="Layoffs">What time off does to the dose; the first whose conditions hold.</param>
/// <param name="Clearances">What a clearance for a general flag still leaves out.</param>
public sealed record ReturnRules(HistoryRule History, IReadOnlyList<LayoffRule> Layoffs, IReadOnlyList<ClearanceRule> Clearances);

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
