using Recommender.Domain.Outcomes;

namespace Recommender.Answers.Learned;

/// <summary>Reports about a decision.</summary>
/// <param name="Items">All of them, oldest first; the last about a pick counts.</param>
public sealed record OutcomeList(IReadOnlyList<OutcomeBody> Items);

/// <summary>A report as it is kept.</summary>
/// <param name="DecisionId">Decision.</param>
/// <param name="Exercise">Pick that it is about.</param>
/// <param name="Entry">1 for the first report about this pick, then on.</param>
/// <param name="CreatedAt">When it came in, UTC.</param>
/// <param name="Counts">Whether it is the last about this pick: only that one counts.</param>
/// <param name="Verdict">used, swapped or declined.</param>
/// <param name="ReplacedBy">What was done in its place, or null.</param>
/// <param name="Done">Sets that were done, or null.</param>
/// <param name="PainDuring">Worst pain during the work, or null.</param>
/// <param name="PainNextMorning">Pain next morning, or null.</param>
/// <param name="Effort">Perceived effort of this work, or null.</param>
/// <param name="Note">Free text, or null.</param>
/// <param name="Learned">Whether the choice can stand in a pair that is learned from.</param>
/// <param name="NotLearnedBecause">Why it cannot, or null.</param>
/// <param name="Caution">What it holds back for this athlete from now on, or null.</param>
/// <param name="PersonalDataErased">Whether work, pain, effort and note were erased with the athlete.</param>
public sealed record OutcomeBody(string DecisionId, string Exercise, int Entry, DateTimeOffset CreatedAt, bool Counts, string Verdict, string? ReplacedBy, IReadOnlyList<WorkDone>? Done, int? PainDuring, int? PainNextMorning,
    decimal? Effort, string? Note, bool Learned, string? NotLearnedBecause, string? Caution, bool PersonalDataErased);
