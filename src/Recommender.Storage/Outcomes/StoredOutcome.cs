namespace Recommender.Storage.Outcomes;

/// <summary>A report as it is kept.</summary>
/// <param name="DecisionId">Decision.</param>
/// <param name="Exercise">Pick that it is about.</param>
/// <param name="Entry">1 for the first report about it, then on; the last counts.</param>
/// <param name="CreatedAt">When it came in.</param>
/// <param name="Verdict">Verdict id.</param>
/// <param name="AthleteRef">The athlete's ref; null when the decision names none or it was erased.</param>
/// <param name="Coach">The coach of the decision; null when it names none or it was erased.</param>
/// <param name="Report">The report as JSON.</param>
/// <param name="Facts">What it is learned from as JSON; null where it cannot be.</param>
/// <param name="Pained">Whether it tells of pain.</param>
/// <param name="Erased">Whether what is personal in it was erased.</param>
public sealed record StoredOutcome(string DecisionId, string Exercise, int Entry, DateTimeOffset CreatedAt, string Verdict, string? AthleteRef, string? Coach, string Report, string? Facts, bool Pained, bool Erased);
