using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Domain;
using Recommender.Domain.Audit;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Storage.Decisions;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>Answers a decision again, on the versions that it was made on or on those in force, and says what differs and why. Nothing is recorded.</summary>
/// <param name="log">Keeps decisions.</param>
/// <param name="editions">Gives the edition of then.</param>
/// <param name="inForce">Gives the edition of now.</param>
/// <param name="facts">Gives what was read from the store then.</param>
public sealed class ReplayDecision(IDecisionLog log, Editions editions, EditionInForce inForce, ReadFacts facts)
{
    private const int MostDifferences = 1000;
    private const int MostChangesTold = 200;

    /// <summary>Changes that are each made alone to see what they do. Beyond them those of exercises in the answers come first, and the rest is said to be untraced.</summary>
    private const int MostTraced = 60;

    /// <summary>Replays a decision; null when the organisation has none of this id.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="decisionId">Which.</param>
    /// <param name="current">On the versions in force instead of those it was made on.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<Replay?> Of(string organisation, string decisionId, bool current)
    {
        if (await log.Read(organisation, decisionId).ConfigureAwait(false) is not { } stored)
        {
            return null;
        }

        var record = stored.Record;
        var (then, now) = (record.Versions, await inForce.Of(organisation).ConfigureAwait(false));
        var on = current ? "current" : "stored";
        var engineChanged = then.Engine != RecommendationPipeline.Engine;
        if ((current ? now : await editions.Of(organisation, then).ConfigureAwait(false)) is not { } edition)
        {
            return new Replay(false, on, [], engineChanged, [], $"Catalogue {then.Catalogue} or rules {then.Rules} are not kept here or cannot be read by this program.");
        }

        // What earlier work had taught by then stays; what was learned from choices is that of then or that of now.
        if ((current ? await facts.Current(record).ConfigureAwait(false) : await facts.OfRecord(record).ConfigureAwait(false)) is not { } read)
        {
            return new Replay(false, on, [], engineChanged, [], $"Preference {then.Preference} is not kept here.");
        }

        var earlier = await AnswerSession.EarlierOf(record, log).ConfigureAwait(false);
        var (sent, faults) = Again(record, edition, earlier, read);
        if (sent is null)
        {
            return new Replay(false, on, [], engineChanged, [], $"The request cannot be answered on these versions: {faults}");
        }

        var note = engineChanged ? $"The arithmetic has been changed since: engine {then.Engine} made this decision, engine {RecommendationPipeline.Engine} answers now." : null;
        if (sent.AsSpan().SequenceEqual(record.Answer.Span))
        {
            return new Replay(true, on, [], engineChanged, [], note);
        }

        var (was, isNow) = (Parsed(record.Answer), Parsed(sent));
        var differences = JsonDifference.Of(was, isNow, orderCounts: false);
        var texts = current && (then.Catalogue, then.Rules) != (now.CatalogueVersion, now.RulesVersion) ? await Texts(organisation, then, now).ConfigureAwait(false) : null;
        var tracing = texts is null ? null : Tracing.Of(texts, differences, was, isNow, e => Again(record, e, earlier, read).Sent);
        return new Replay(false, on, [.. differences.Take(MostDifferences).Select(d => new ReplayDifference(d.Pointer, d.Was, d.Is, tracing?.Because(d) ?? Unexplained(engineChanged, current)))],
            engineChanged, tracing?.Told ?? [], note);
    }

    private static (byte[]? Sent, string Faults) Again(DecisionRecord record, Edition edition, EarlierPicks? earlier, FactsRead read)
    {
        var (sent, faults) = DecisionKind.Of(record.Kind).Again(record.Request.Span, edition, record.DecisionId, earlier, read);
        return (sent, string.Join(" ", faults.Select(f => f.Message)));
    }

    private async Task<ChangedTexts?> Texts(string organisation, VersionStamp then, Edition now) =>
        await editions.Texts(organisation, then.Catalogue, then.Rules).ConfigureAwait(false) is { } before
        && await editions.Texts(organisation, now.CatalogueVersion, now.RulesVersion).ConfigureAwait(false) is { } after ? new ChangedTexts(before.Catalogue, before.Rules, after.Catalogue, after.Rules) : null;

    private static string Unexplained(bool engineChanged, bool current) =>
        engineChanged ? "The arithmetic has been changed since." : current ? "The versions of then are not kept here, so the change cannot be found." : "The stored answer is not what these versions give: the record or the program was changed.";

    private static JsonElement Parsed(ReadOnlyMemory<byte> json)
    {
        using var document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }

    private sealed record ChangedTexts(KnowledgeText CatalogueBefore, KnowledgeText RulesBefore, KnowledgeText CatalogueAfter, KnowledgeText RulesAfter)
    {
        public IEnumerable<(KnowledgeChange Change, StoredKnowledge Alone)> Changes()
        {
            foreach (var change in KnowledgeChange.Between(CatalogueBefore, CatalogueAfter))
            {
                yield return (change, new StoredKnowledge(change.Alone(CatalogueBefore), RulesBefore));
            }

            foreach (var change in KnowledgeChange.Between(RulesBefore, RulesAfter))
            {
                yield return (change, new StoredKnowledge(CatalogueBefore, change.Alone(RulesBefore)));
            }
        }
    }

    /// <summary>Which change makes which value differ.</summary>
    private sealed class Tracing
    {
        private readonly Dictionary<string, List<string>> causes = new(StringComparer.Ordinal);
        private readonly bool complete;

        private Tracing(IReadOnlyList<string> told, bool complete)
        {
            Told = told;
            this.complete = complete;
        }

        /// <summary>The changes in words.</summary>
        public IReadOnlyList<string> Told { get; }

        public static Tracing Of(ChangedTexts texts, IReadOnlyList<JsonChange> differences, JsonElement was, JsonElement isNow, Func<Edition, byte[]?> again)
        {
            // Exercises that the answers name come first: what is said of others seldom reaches an answer.
            var named = was.GetRawText() + isNow.GetRawText();
            var changes = texts.Changes().OrderBy(c => c.Change.Exercise is { } id && !named.Contains($"\"{id}\"", StringComparison.Ordinal)).ToList();
            var tracing = new Tracing([.. changes.Take(MostChangesTold).Select(c => c.Change.Text)], changes.Count <= MostTraced);
            var places = differences.Select(d => d.Place).ToHashSet(StringComparer.Ordinal);
            foreach (var (change, alone) in changes.Take(MostTraced))
            {
                if (Reached(alone, was, again) is { } reached)
                {
                    foreach (var place in reached.Where(places.Contains))
                    {
                        tracing.Add(place, change.Text);
                    }
                }
            }

            return tracing;
        }

        public string Because(JsonChange difference) =>
            difference.Steps is [{ Name: "versions" }, ..] ? "Another version is in force."
            : causes.TryGetValue(difference.Place, out var found) ? string.Join(" ", found)
            : complete ? "Several of the changes together." : "One of many changes, which were not all traced.";

        private void Add(string place, string cause)
        {
            if (!causes.TryGetValue(place, out var list))
            {
                causes[place] = list = [];
            }

            list.Add(cause);
        }

        /// <summary>Places of the answer that one change alone makes differ; null where the change cannot stand alone.</summary>
        private static IEnumerable<string>? Reached(StoredKnowledge alone, JsonElement was, Func<Edition, byte[]?> again)
        {
            try
            {
                return again(KnowledgeReader.ReadUnchecked(alone)) is { } sent ? JsonDifference.Of(was, Parsed(sent), orderCounts: false).Select(d => d.Place) : null;
            }
            catch (Exception e) when (e is InvalidKnowledgeException or KeyNotFoundException or ArgumentException or InvalidOperationException)
            {
                // A new exercise without the word that came with it, say: it takes both changes.
                return null;
            }
        }
    }
}
