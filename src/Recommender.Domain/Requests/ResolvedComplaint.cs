using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>A complaint with its gaps filled.</summary>
/// <param name="Region">The region as named.</param>
/// <param name="Side">Side.</param>
/// <param name="Pain">Pain as given, 0 to 10.</param>
/// <param name="EffectivePain">Pain that the limits are read at; higher when the next morning was worse or pain rises from week to week.</param>
/// <param name="WorseMorning">Whether the latest morning was worse.</param>
/// <param name="RedFlags">Its red flags.</param>
/// <param name="Stands">The regions it stands for, one unless the region covers others.</param>
public sealed record ResolvedComplaint(RegionTerm Region, Side Side, int Pain, int EffectivePain, bool WorseMorning, IReadOnlyList<RedFlagTerm> RedFlags, IReadOnlyList<SoreRegion> Stands)
{
    /// <summary>Whether it is muscle soreness after training, which lightens and never refers by itself.</summary>
    public bool Soreness { get; init; }

    /// <summary>Whether it came on suddenly so short a while ago that it is assessed first.</summary>
    public bool Acute { get; init; }

    /// <summary>Whether so many mornings running were worse that it is referred.</summary>
    public bool WorseMorningsRunning { get; init; }

    /// <summary>Whether pain rises from week to week.</summary>
    public bool Rising { get; init; }

    /// <summary>Whether it may be bone.</summary>
    public bool SuspectedBone { get; init; }

    /// <summary>Stage that was sent; null when none was.</summary>
    public LoadingStage? StageSent { get; init; }

    /// <summary>Provocation ids, none twice.</summary>
    public IReadOnlyList<string> ProvokedBy { get; init; } = [];

    /// <summary>Whether it is examined before anything is built on it, whatever its pain.</summary>
    public bool ExaminedFirst => RedFlags.Count > 0 || Acute || SuspectedBone || WorseMorningsRunning;
}

/// <summary>A region that a complaint stands for.</summary>
/// <param name="Region">Region; never one that covers others.</param>
/// <param name="Pain">Pain that its limits are read at, 0 to 10.</param>
/// <param name="Eased">Whether its limits are those of soreness of a muscle.</param>
/// <param name="Tissues">Tissue rules that hold beside the region's own limits.</param>
/// <param name="Stage">Stage in force; null when the region has no programme or is sore from training.</param>
/// <param name="StageBinds">Whether the stage's own limits bind: someone put the athlete on it, or wrote how far it may go.</param>
/// <param name="FollowsProgramme">
/// Whether its work is dosed and built by <paramref name="Stage"/>: a grown athlete, a tissue that the programme is for, nothing to be examined first.
/// </param>
public sealed record SoreRegion(RegionTerm Region, int Pain, bool Eased, IReadOnlyList<TissueRule> Tissues, ProgrammeStage? Stage, bool StageBinds, bool FollowsProgramme);

/// <summary>A clinician's restriction with its gaps filled.</summary>
/// <param name="Region">Region as named.</param>
/// <param name="Stands">The regions it stands for.</param>
/// <param name="Side">Side.</param>
/// <param name="MaxTissueLoad">Upper load allowed, or null.</param>
/// <param name="MaxLoadingRate">Fastest loading rate allowed, or null.</param>
/// <param name="Stage">Latest stage allowed, or null.</param>
/// <param name="ReviewInDays">Days until its review, below 0 when it is overdue; null when none is known.</param>
public sealed record ResolvedRestriction(RegionTerm Region, IReadOnlyList<RegionTerm> Stands, Side Side, decimal? MaxTissueLoad, LoadingRate? MaxLoadingRate, LoadingStage? Stage, int? ReviewInDays)
{
    /// <summary>Whether it is about a region on a side; both sides touch either.</summary>
    public bool IsAbout(string region, Side side) =>
        (Side == side || Side == Side.Both || side == Side.Both) && Stands.Any(r => r.Id == region);
}

/// <summary>A clearance, and whether it still holds.</summary>
/// <param name="Rule">What it still leaves out.</param>
/// <param name="Position">Position of the rule.</param>
/// <param name="DaysAgo">Days since it was given.</param>
public sealed record ResolvedClearance(ClearanceRule Rule, int Position, int DaysAgo)
{
    /// <summary>Whether it is too old to count.</summary>
    public bool Lapsed => DaysAgo > Rule.ValidDays;
}

/// <summary>What time off does to the dose. The gates do not read it; what waits stands in <see cref="Situation.LayoffBits"/>.</summary>
/// <param name="VolumeShare">Share of the usual volume in the first week back, 0 to 1.</param>
/// <param name="WeeksOfRamp">Weeks until the usual volume.</param>
/// <param name="NoFailure">Whether no set goes to failure during the ramp.</param>
/// <param name="Note">What it means, in plain words.</param>
/// <param name="Basis">Basis of the numbers.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record Layoff(decimal VolumeShare, int WeeksOfRamp, bool NoFailure, string Note, Basis Basis, string? Source);
