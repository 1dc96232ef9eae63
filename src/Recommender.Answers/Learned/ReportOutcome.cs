using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Audit;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;

namespace Recommender.Answers.Learned;

/// <summary>Takes reports of what was done with picks. They are appended; the last about a pick counts, and the same again changes nothing.</summary>
/// <param name="log">Keeps decisions.</param>
/// <param name="outcomes">Keeps reports.</param>
/// <param name="audit">Asks decisions again.</param>
/// <param name="editions">Gives the edition that a decision was made on.</param>
/// <param name="inForce">Gives the edition of now.</param>
/// <param name="clock">Gives the time of a report.</param>
public sealed class ReportOutcome(IDecisionLog log, OutcomeStore outcomes, AuditDecision audit, Editions editions, EditionInForce inForce, TimeProvider clock)
{
    private const string NoFacts = "The versions that the decision was made on are not kept here, so the choice cannot be compared.";
    private const string ByLikeness = "What stands in for an exercise is ordered by likeness, not by points, so nothing is learned from it.";
    private const string PickRefused = "The versions of the decision do not let this pick through, so the choice cannot be compared.";
    private const string Gated = "What was done instead did not pass every gate of the decision. The report is kept, and the swap is never learned from.";
    private const string ReplacementUnknown = "What was done instead was not in the catalogue of the decision. The report is kept, and the swap is not learned from.";

    /// <summary>Takes a report.</summary>
    /// <param name="organisation">Who reports.</param>
    /// <param name="decisionId">Decision.</param>
    /// <param name="report">A report as it was read.</param>
    /// <exception cref="StoreUnavailableException">It could not be kept; nothing was.</exception>
    public async Task<Reported> Take(string organisation, string decisionId, OutcomeReport report)
    {
        if (await log.Read(organisation, decisionId).ConfigureAwait(false) is not { } stored)
        {
            return new Reported(ReportState.NoDecision);
        }

        if (stored.PersonalDataErased)
        {
            return new Reported(ReportState.AthleteErased);
        }

        var record = stored.Record;
        var now = await inForce.Of(organisation).ConfigureAwait(false);
        if (OutcomeChecks.Of(report, PicksOf(record.Answer), now.Catalogue) is { Count: > 0 } faults)
        {
            return new Reported(ReportState.Faulty) { Faults = faults };
        }

        var facts = await Facts(organisation, record, report).ConfigureAwait(false);
        var appended = await outcomes.Append(organisation, new StoredOutcome(decisionId, report.Exercise!, 0, DateTimeOffset.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds()), report.Verdict!,
            record.AthleteRef, record.Coach, JsonSerializer.Serialize(report, WireJson.Compact.OutcomeReport), facts is null ? null : JsonSerializer.Serialize(facts, WireJson.Compact.OutcomeFacts),
            report.PainDuring is not null || report.PainNextMorning is not null, Erased: false)).ConfigureAwait(false);
        if (appended is not var (kept, isNew))
        {
            // Erased while this was worked out.
            return new Reported(ReportState.AthleteErased);
        }

        return new Reported(isNew ? ReportState.Appended : ReportState.SaidAlready) { Kept = Body(kept, counts: true, now.Knowledge.Outcomes), AthleteRef = record.AthleteRef };
    }

    /// <summary>All reports about a decision, oldest first; null when the organisation has no such decision.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<OutcomeList?> OfDecision(string organisation, string decisionId) =>
        await log.Read(organisation, decisionId).ConfigureAwait(false) is null ? null : new OutcomeList(await OfRecord(organisation, decisionId).ConfigureAwait(false));

    /// <summary>All reports about a decision that is on record, oldest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<OutcomeBody>> OfRecord(string organisation, string decisionId) =>
        await Bodies(organisation, await outcomes.OfDecision(organisation, decisionId).ConfigureAwait(false)).ConfigureAwait(false);

    /// <summary>Records as they are read, each with all reports about it as they are given out.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async IAsyncEnumerable<(StoredDecision Decision, IReadOnlyList<OutcomeBody> Reports)> Beside(string organisation, IAsyncEnumerable<(StoredDecision Decision, IReadOnlyList<StoredOutcome> Reports)> records)
    {
        await foreach (var (decision, reports) in records.ConfigureAwait(false))
        {
            yield return (decision, await Bodies(organisation, reports).ConfigureAwait(false));
        }
    }

    /// <summary>Erases what is personal in an athlete's reports.</summary>
    /// <returns>How many reports it was erased from.</returns>
    /// <exception cref="StoreUnavailableException">It could not be erased; nothing was.</exception>
    public Task<int> Erase(string organisation, string athleteRef) => Erase(outcomes, organisation, athleteRef);

    /// <inheritdoc cref="Erase(string, string)"/>
    internal static Task<int> Erase(OutcomeStore outcomes, string organisation, string athleteRef) => outcomes.Erase(organisation, athleteRef, Stripped);

    /// <summary>Why a choice cannot stand in a pair; null where it can.</summary>
    internal static string? NotLearned(string verdict, OutcomeFacts? facts) => facts is null ? NoFacts
        : facts.Kind == DecisionKind.Substitution.Id ? ByLikeness
        : !facts.Picked.IsOpen ? PickRefused
        : verdict != Verdicts.Swapped ? null
        : facts.Instead is null ? ReplacementUnknown
        : facts.Instead.IsOpen ? null : Gated;

    private static IReadOnlyList<string> PicksOf(ReadOnlyMemory<byte> answer)
    {
        using var document = JsonDocument.Parse(answer);
        return [.. document.RootElement.GetProperty("picks").EnumerateArray().Select(p => p.GetProperty("exercise").GetProperty("id").GetString()!)];
    }

    /// <summary>Verdict and choice stay; what tells of a person's body goes.</summary>
    private static (string Report, string? Facts) Stripped(string report, string? facts)
    {
        var of = JsonSerializer.Deserialize(report, WireJson.Compact.OutcomeReport)!;
        var stripped = new OutcomeReport { Exercise = of.Exercise, Verdict = of.Verdict, ReplacedBy = of.ReplacedBy };
        return (JsonSerializer.Serialize(stripped, WireJson.Compact.OutcomeReport),
            facts is null ? null : JsonSerializer.Serialize(JsonSerializer.Deserialize(facts, WireJson.Compact.OutcomeFacts)! with { Work = null }, WireJson.Compact.OutcomeFacts));
    }

    /// <summary>Reports about one decision as they are given out; where there is none nothing else is asked for.</summary>
    private async ValueTask<IReadOnlyList<OutcomeBody>> Bodies(string organisation, IReadOnlyList<StoredOutcome> kept)
    {
        if (kept.Count == 0)
        {
            return [];
        }

        var last = kept.GroupBy(o => o.Exercise, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Max(o => o.Entry), StringComparer.Ordinal);
        var rules = (await inForce.Of(organisation).ConfigureAwait(false)).Knowledge.Outcomes;
        return [.. kept.Select(o => Body(o, o.Entry == last[o.Exercise], rules))];
    }

    private static OutcomeBody Body(StoredOutcome kept, bool counts, OutcomeRules? rules)
    {
        var report = JsonSerializer.Deserialize(kept.Report, WireJson.Compact.OutcomeReport)!;
        var facts = kept.Facts is null ? null : JsonSerializer.Deserialize(kept.Facts, WireJson.Compact.OutcomeFacts)!;
        var because = NotLearned(kept.Verdict, facts);
        return new OutcomeBody(kept.DecisionId, kept.Exercise, kept.Entry, kept.CreatedAt, counts, kept.Verdict, report.ReplacedBy, report.Done, report.PainDuring, report.PainNextMorning, report.Effort, report.Note,
            because is null && counts, because, counts && kept.AthleteRef is not null ? Caution(report, facts?.Work, rules?.Caution) : null, kept.Erased);
    }

    private static string? Caution(OutcomeReport report, WorkFacts? work, CautionRule? rule)
    {
        if (work is null || rule is null || !LearnedCaution.Rose(work.PainBefore, report.PainDuring, report.PainNextMorning, rule))
        {
            return null;
        }

        string[] held = [.. work.Loads.Where(l => l.Value >= rule.LoadedFrom).Select(l => l.Key)];
        return held.Length == 0 ? $"Pain rose, and {work.Exercise} loads nothing notably that could be held; watch it."
            : $"Pain rose: for {rule.Days} days work of this athlete at this speed or faster is held to {rule.Share * 100:0.#} % of the load of {work.Exercise} on {string.Join(", ", held)}.";
    }

    private async Task<OutcomeFacts?> Facts(string organisation, Domain.Decisions.DecisionRecord record, OutcomeReport report)
    {
        try
        {
            return await editions.Of(organisation, record.Versions).ConfigureAwait(false) is { } edition
                ? Choices.Of(record.Kind, await audit.QuestionOf(record).ConfigureAwait(false), edition, report)
                : null;
        }
        catch (EditionGoneException)
        {
            return null;
        }
    }
}

/// <summary>What became of a report.</summary>
public enum ReportState
{
    /// <summary>It was appended.</summary>
    Appended,

    /// <summary>It says the same as the last one about this pick, which stands.</summary>
    SaidAlready,

    /// <summary>Something is wrong with it; nothing was kept.</summary>
    Faulty,

    /// <summary>The organisation has no such decision.</summary>
    NoDecision,

    /// <summary>The athlete of the decision was erased; nothing more is kept about them.</summary>
    AthleteErased,
}

/// <summary>A report after it was taken or not.</summary>
/// <param name="State">What became of it.</param>
public sealed record Reported(ReportState State)
{
    /// <summary>What was wrong with it; empty when it was taken.</summary>
    public IReadOnlyList<Fault> Faults { get; init; } = [];

    /// <summary>The report as it is kept; null when it was not taken.</summary>
    public OutcomeBody? Kept { get; init; }

    /// <summary>The athlete of the decision where the report was taken and one is named; else null.</summary>
    public string? AthleteRef { get; init; }
}
