using System.Collections.Concurrent;
using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;

namespace Recommender.Benchmarks.Stores;

/// <summary>Records of real answers to the demo squad, to be appended again and again under new ids: what is measured is the store.</summary>
internal sealed class RealRecords : IDecisionLog
{
    private readonly ConcurrentQueue<DecisionRecord> taken = new();
    private readonly List<DecisionRecord> records = [];
    private int next;

    /// <summary>Text that their answers repeat, as the service packs with.</summary>
    public byte[] Repeated { get; private set; } = [];

    public static async Task<RealRecords> Make()
    {
        var all = new RealRecords();
        var edition = Requests.ShippedEdition();
        var folder = Directory.CreateTempSubdirectory("recommender-benchmark-");
        using (var nothingReported = SqliteStore.Open(folder.FullName))
        {
            var facts = new ReadFacts(new OutcomeStore(nothingReported), new PreferencesInForce(new PreferenceStore(nothingReported), TimeProvider.System));
            var answers = new AnswerRecommendation(EditionInForce.Always(edition), all, facts, TimeProvider.System);
            foreach (var request in Requests.OfTheSquad())
            {
                _ = await answers.One(request, "club", null);
            }
        }

        folder.Delete(recursive: true);
        all.records.AddRange(all.taken);
        all.Repeated = RepeatedText.Of(edition);
        return all;
    }

    /// <summary>A log on a store that packs as the service does.</summary>
    public async Task<DecisionLog> LogOn(Store store)
    {
        var packings = new Packings(store);
        await packings.Use(Repeated);
        return new DecisionLog(store, packings);
    }

    /// <summary>The next record, as one of an organisation.</summary>
    public DecisionRecord Next(string organisation)
    {
        var number = Interlocked.Increment(ref next);
        return records[number % records.Count] with { Organisation = organisation, DecisionId = Guid.CreateVersion7().ToString(), CreatedAt = DateTimeOffset.UtcNow };
    }

    public ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim)
    {
        foreach (var record in records)
        {
            taken.Enqueue(record);
        }

        return ValueTask.FromResult(true);
    }

    public ValueTask<bool> Claim(string organisation, IdempotencyClaim claim) => ValueTask.FromResult(true);

    public Task<StoredDecision?> Read(string organisation, string decisionId) => Task.FromResult<StoredDecision?>(null);

    public Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore) => Task.FromResult<StoredAnswer?>(null);

    public Task<int> Erase(string organisation, string athleteRef) => Task.FromResult(0);
}
