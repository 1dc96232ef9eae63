using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>data/rules/pain.json.</summary>
/// <param name="SparedLoad">Upper tissue load that a barred region may still see, 0 to 10.</param>
/// <param name="WorseMorning">What a worse next morning does.</param>
/// <param name="WorseMornings">What several worse mornings running do.</param>
/// <param name="RisingTrend">What pain that rises from week to week does.</param>
/// <param name="Soreness">What muscle soreness after training does.</param>
/// <param name="Tissues">What a tissue that was sent adds; one for each of the vocabulary.</param>
/// <param name="BoneFlags">Red flags of a body part that may mean bone.</param>
/// <param name="Acute">What came on suddenly a short while ago.</param>
/// <param name="Limits">Limits by region; a region stands in exactly one.</param>
/// <param name="Youth">What holds below the age of adult tendon programmes.</param>
/// <param name="RedFlagSpares">Complaint region to further regions that a red flag of scope regions bars with it.</param>
public sealed record PainRules(RuleNumber SparedLoad, WorseMorning WorseMorning, WorseMornings WorseMornings, RisingTrend RisingTrend, SorenessRule Soreness,
    IReadOnlyList<TissueRule> Tissues, IReadOnlyList<string> BoneFlags, AcuteRule Acute, IReadOnlyList<PainLimit> Limits, YouthPain Youth,
    IReadOnlyDictionary<string, IReadOnlyList<string>> RedFlagSpares);

/// <summary>Pain that is worse next morning counts for more.</summary>
/// <param name="AddsPain">Points added to the pain given.</param>
/// <param name="AtMost">Raised pain never passes this by itself; pain given above it stays.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record WorseMorning(int AddsPain, int AtMost, Basis Basis, string? Source = null);

/// <summary>How much load a sore region may see, by loading rate and pain.</summary>
/// <param name="Id">Kebab-case id.</param>
/// <param name="Regions">Regions it holds for.</param>
/// <param name="Tissue">Tissue that the limits were made for.</param>
/// <param name="MaxTissueLoad">Loading rate to eleven limits, pain 0 to 10; never rising with pain; 10 is no limit.</param>
/// <param name="ReferFromPain">From this pain on the region is referred and spared.</param>
/// <param name="Urgency">Urgency of that referral.</param>
/// <param name="Note">What the limits mean, for the explanation.</param>
/// <param name="Basis">Basis of the limits.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record PainLimit(string Id, IReadOnlyList<string> Regions, string Tissue, IReadOnlyDictionary<LoadingRate, IReadOnlyList<decimal>> MaxTissueLoad,
    int ReferFromPain, string Urgency, string Note, Basis Basis, string? Source = null);

/// <summary>Pain in the growing athlete.</summary>
/// <param name="BelowAge">Holds below this age, years, and in a growth spurt.</param>
/// <param name="LimitsOf">Id of the limits that hold beside the region's own; the stricter of both binds.</param>
/// <param name="ReferFromPain">From this pain on the region is referred and spared.</param>
/// <param name="GrowthPlateRegions">Regions where pain is treated as the growth plate.</param>
/// <param name="GrowthPlateNote">What that means.</param>
/// <param name="SpurtNote">What a growth spurt means.</param>
/// <param name="UnsupervisedNote">Said when no adult is there.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="UnsupervisedSource">Source of <paramref name="UnsupervisedNote"/>, or null.</param>
/// <param name="Provoked">Pain that is always looked at first, by what brings it on; null for none.</param>
public sealed record YouthPain(int BelowAge, string LimitsOf, int ReferFromPain, IReadOnlyList<string> GrowthPlateRegions, string GrowthPlateNote, string SpurtNote,
    string UnsupervisedNote, string Note, Basis Basis, string? Source = null, string? UnsupervisedSource = null, IReadOnlyList<ProvokedReferral>? Provoked = null);

/// <summary>Pain that a growing athlete's movement brings on, and that a clinician looks at whatever its strength.</summary>
/// <param name="BelowAge">Holds below this age, years, and in a growth spurt.</param>
/// <param name="Regions">Regions that hurt.</param>
/// <param name="ProvokedBy">Provocations, one of which brings it on.</param>
/// <param name="Urgency">Urgency of the referral.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
public sealed record ProvokedReferral(int BelowAge, IReadOnlyList<string> Regions, IReadOnlyList<string> ProvokedBy, string Urgency, string Note, Basis Basis, string? Source = null);
