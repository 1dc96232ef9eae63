using Recommender.Answers.Learned;
using Recommender.Domain.Requests;
using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;
using Recommender.Testing;

namespace Recommender.Answers.Tests;

/// <summary>Everything that answers need, on a store of its own and with the clock standing still.</summary>
public sealed class Desk : IAsyncDisposable
{
    public static readonly DateTimeOffset Now = new(2026, 3, 1, 12, 0, 0, 123, 456, TimeSpan.Zero);
    private static readonly Lazy<KnowledgeAtStart> Start = new(() => KnowledgeAtStart.Read(TestEdition.DataFolder));
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("recommender-answers-");

    private Desk()
    {
        Store = SqliteStore.Open(folder.FullName);
        Log = new DecisionLog(Store, new Packings(Store));
        Editions = EditionInForce.Always(Start.Value.Edition);
        Outcomes = new OutcomeStore(Store);
        Preferences = new PreferenceStore(Store);
        InForce = new PreferencesInForce(Preferences, Clock);
        Facts = new ReadFacts(Outcomes, InForce);
        Answers = new AnswerRecommendation(Editions, Log, Facts, Clock);
        Decisions = new ReadDecision(Log);
        var kept = new Answers.Editions(new VersionStore(Store), Start.Value);
        Audit = new AuditDecision(Log, kept, Facts);
        Reports = new ReportOutcome(Log, Outcomes, Audit, kept, Editions, Clock);
        Replays = new ReplayDecision(Log, kept, Editions, Facts);
    }

    public StandingClock Clock { get; } = new();

    public SqliteStore Store { get; }

    public DecisionLog Log { get; }

    public EditionInForce Editions { get; }

    public AnswerRecommendation Answers { get; }

    public ReadDecision Decisions { get; }

    public OutcomeStore Outcomes { get; }

    public PreferenceStore Preferences { get; }

    public PreferencesInForce InForce { get; }

    public ReadFacts Facts { get; }

    public AuditDecision Audit { get; }

    public ReportOutcome Reports { get; }

    public ReplayDecision Replays { get; }

    public static Desk Open() => new();

    /// <summary>The least that can be asked.</summary>
    public static RecommendationRequest Least() => new() { Athlete = new AthleteFacts { EventGroup = "jumps" }, Phase = "general-preparation" };

    /// <summary>A request that cannot be answered: it has no phase.</summary>
    public static RecommendationRequest Faulty() => Least() with { Phase = null };

    public static Func<byte[], DateTimeOffset, IdempotencyClaim> Claim(string key = "key") => (sent, now) => new IdempotencyClaim(key, new byte[32], sent, now, now.AddHours(-24));

    /// <summary>How many decisions are on record.</summary>
    public Task<long> Count() => Store.Use(async connection =>
    {
        await using var command = connection.CreateCommand();
        command.CommandText = "SELECT COUNT(*) FROM decisions";
        return (long)(await command.ExecuteScalarAsync())!;
    });

    public async ValueTask DisposeAsync()
    {
        await Log.DisposeAsync();
        Store.Dispose();
        folder.Delete(recursive: true);
    }

    /// <summary>Stands still until it is moved on.</summary>
    public sealed class StandingClock : TimeProvider
    {
        private TimeSpan moved;

        public void MoveOn(TimeSpan by) => moved += by;

        public override DateTimeOffset GetUtcNow() => Now + moved;
    }
}

/// <summary>Tests at a desk.</summary>
public abstract class DeskTests : IAsyncLifetime
{
    protected Desk Desk { get; } = Desk.Open();

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync() => Desk.DisposeAsync().AsTask();
}
