using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Outcomes;

namespace Recommender.Answers.Learned;

/// <summary>Reads what a request does not say itself: what was learned from choices, and what earlier work taught about the athlete.</summary>
/// <param name="outcomes">Keeps reports.</param>
/// <param name="preferences">What was learned and is in force.</param>
public sealed class ReadFacts(OutcomeStore outcomes, PreferencesInForce preferences)
{
    /// <summary>What is read for a request now.</summary>
    /// <param name="organisation">Who asks.</param>
    /// <param name="context">The part of the request that is about an athlete and a situation.</param>
    /// <param name="edition">The edition that it is answered on.</param>
    /// <param name="now">When.</param>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read; without its cautions an answer would be less careful, so there is none.</exception>
    public async Task<FactsRead> For(string organisation, RecommendationRequest? context, Edition edition, DateTimeOffset now)
    {
        if (context is null || edition.Knowledge.Outcomes is not { } rules)
        {
            return FactsRead.Nothing;
        }

        var preference = await preferences.Of(organisation, context.Coach).ConfigureAwait(false);
        var cautions = context.Athlete?.Ref is { } reference ? await Cautions(organisation, reference, rules.Caution, now).ConfigureAwait(false) : [];
        return preference is null && cautions.Count == 0 ? FactsRead.Nothing : new FactsRead(preference, cautions);
    }

    /// <summary>What was read for a decision on record; null when the preference that it was made on is not kept.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<FactsRead?> OfRecord(DecisionRecord record)
    {
        var cautions = CautionsOf(record.Facts.Span);
        if (record.Versions.Preference is not { } version)
        {
            return cautions.Count == 0 ? FactsRead.Nothing : new FactsRead(null, cautions);
        }

        return await preferences.Version(record.Organisation, version).ConfigureAwait(false) is { } preference ? new FactsRead(preference, cautions) : null;
    }

    /// <summary>The same facts with what is in force now for the coach of the record.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<FactsRead> Current(DecisionRecord record) =>
        new(await preferences.Of(record.Organisation, record.Coach).ConfigureAwait(false), CautionsOf(record.Facts.Span));

    /// <summary>What of it goes into the record beside its versions, as canonical JSON; empty when nothing does.</summary>
    internal static byte[] Kept(FactsRead? facts) =>
        facts is not { Cautions.Count: > 0 } ? [] : CanonicalJson.Of(JsonSerializer.SerializeToUtf8Bytes(new KeptFacts(facts.Cautions), WireJson.Compact.KeptFacts));

    /// <summary>What earlier work had taught about the athlete of a decision on record.</summary>
    public static IReadOnlyList<LearnedCaution> CautionsOf(DecisionRecord record) => CautionsOf(record.Facts.Span);

    private static IReadOnlyList<LearnedCaution> CautionsOf(ReadOnlySpan<byte> facts) => facts.IsEmpty ? [] : JsonSerializer.Deserialize(facts, WireJson.Compact.KeptFacts)!.Cautions;

    private async Task<IReadOnlyList<LearnedCaution>> Cautions(string organisation, string reference, CautionRule rule, DateTimeOffset now)
    {
        var cautions = new List<LearnedCaution>();
        foreach (var outcome in await outcomes.Pained(organisation, reference, now.AddDays(-(rule.Days + 1))).ConfigureAwait(false))
        {
            if (outcome.Facts is { } json && JsonSerializer.Deserialize(json, WireJson.Compact.OutcomeFacts)!.Work is { } work)
            {
                var report = JsonSerializer.Deserialize(outcome.Report, WireJson.Compact.OutcomeReport)!;
                var caution = new LearnedCaution(work.Exercise, Math.Max(0, (int)(now - outcome.CreatedAt).TotalDays), work.PainBefore, report.PainDuring, report.PainNextMorning, work.LoadingRate, work.Loads);
                if (caution.IsInForce(rule))
                {
                    cautions.Add(caution);
                }
            }
        }

        return cautions;
    }
}

/// <summary>What a record keeps of what was read for it, beside its versions.</summary>
/// <param name="Cautions">What earlier work taught about the athlete, oldest first.</param>
public sealed record KeptFacts(IReadOnlyList<LearnedCaution> Cautions);
