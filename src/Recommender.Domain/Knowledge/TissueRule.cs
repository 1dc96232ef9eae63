using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>What a tissue that was sent with a complaint adds to the limits of its region. It only ever makes them stricter.</summary>
/// <param name="Id">Tissue id of the vocabulary.</param>
/// <param name="LimitsOf">Ids of limits that hold beside the region's own, unless those were made for this tissue; the strictest binds.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="ReferFromPain">From this pain on the region is referred, unless its own limits were made for this tissue; 0 refers always, whatever the region; null leaves it to the region.</param>
/// <param name="Urgency">Urgency of that referral.</param>
/// <param name="SameDayRegions">Regions whose referral is for the same day; null for none.</param>
/// <param name="NoImpactRegions">A complaint in one of these stops every landing, on either leg; null for none.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record TissueRule(string Id, IReadOnlyList<string> LimitsOf, string Note, Basis Basis, int? ReferFromPain = null, string Urgency = "within-days",
    IReadOnlyList<string>? SameDayRegions = null, IReadOnlyList<string>? NoImpactRegions = null, string? Source = null)
{
    /// <summary>Id of the tissue of bone.</summary>
    public const string Bone = "bone";

    /// <summary>Id of the tissue of a growth plate.</summary>
    public const string GrowthPlate = "growth-plate";
}

/// <summary>Several worse mornings running.</summary>
/// <param name="RefersAfter">So many, the latest among them, refer the region.</param>
/// <param name="Note">Why, for the referral.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record WorseMornings(int RefersAfter, string Note, Basis Basis, string? Source = null);

/// <summary>Pain that rises from week to week.</summary>
/// <param name="AddsPain">Points added to the pain given.</param>
/// <param name="AtMost">Raised pain never passes this by itself; pain given above it stays.</param>
/// <param name="StagesBack">Stages of a programme that it goes back.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record RisingTrend(int AddsPain, int AtMost, int StagesBack, string Note, Basis Basis, string? Source = null);

/// <summary>Muscle soreness after training: lightened, never referred by itself.</summary>
/// <param name="ReadAtMost">In a region of muscle the limits are read at this pain at most.</param>
/// <param name="LastsAtMostDays">Soreness older than this is treated as pain, days.</param>
/// <param name="Regions">Regions of muscle.</param>
/// <param name="Note">What it means there.</param>
/// <param name="ElsewhereNote">What it means where bone or joint is; there the limits of pain hold.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record SorenessRule(int ReadAtMost, int LastsAtMostDays, IReadOnlyList<string> Regions, string Note, string ElsewhereNote, Basis Basis, string? Source = null);

/// <summary>What came on suddenly a short while ago: assessed before it is loaded.</summary>
/// <param name="WithinDays">Holds up to so many days after the onset.</param>
/// <param name="Urgency">Urgency of the referral.</param>
/// <param name="Holds">Ids of provocation rules held until it was assessed.</param>
/// <param name="Note">Why, for the referral.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record AcuteRule(int WithinDays, string Urgency, IReadOnlyList<string> Holds, string Note, Basis Basis, string? Source = null);
