namespace Recommender.Domain.Eligibility;

/// <summary>A sign or a pain that belongs before a clinician first.</summary>
/// <param name="Scope">all: no picks; regions: what loads the regions is barred.</param>
/// <param name="Regions">Regions barred; empty for scope all.</param>
/// <param name="Urgency">emergency, same-day or within-days; the most urgent of the reasons.</param>
/// <param name="Reasons">At least one.</param>
/// <param name="Advice">What to do, in plain words.</param>
public sealed record Referral(string Scope, IReadOnlyList<string> Regions, string Urgency, IReadOnlyList<ReferralReason> Reasons, string Advice);

/// <summary>One reason of a referral.</summary>
/// <param name="Flag">Red-flag id, or null when pain is the reason.</param>
/// <param name="Region">Region id, or null when it is general.</param>
/// <param name="Text">In plain words.</param>
public sealed record ReferralReason(string? Flag, string? Region, string Text);
