using Recommender.Answers;
using Recommender.Answers.Access;
using Recommender.Answers.Learned;
using Recommender.Storage.Access;
using Recommender.Storage.Athletes;
using Recommender.Storage.Decisions;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Outcomes;
using Recommender.Storage.Preferences;
using Recommender.Storage.Versioning;

namespace Recommender.Api.Hosting;

/// <summary>What the slices are given.</summary>
public static class Services
{
    /// <summary>Registers knowledge, store and answers. Nothing is read before <see cref="StartUp.Prepare"/>.</summary>
    public static void AddRecommender(this IServiceCollection services, Settings settings)
    {
        services.AddSingleton(settings);
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<CheckedKnowledge>();
        services.AddSingleton(s => KnowledgeAtStart.Read(settings.DataFolder, s.GetRequiredService<CheckedKnowledge>()));
        services.AddSingleton<EditionInForce>();
        services.AddSingleton<VersionStore>();
        services.AddHostedService<PublicationWatch>();
        services.AddSingleton<Editions>();
        services.AddSingleton<KnowledgeVersions>();
        services.AddSingleton<ReplayDecision>();
        services.AddSingleton<VersionImpact>();
        services.AddSingleton(_ => settings.Store.Open());
        services.AddSingleton<Packings>();
        services.AddSingleton<IDecisionLog, DecisionLog>();
        services.AddSingleton<DecisionReader>();
        services.AddSingleton<ChainVerifier>();
        services.AddSingleton<AthleteStore>();
        services.AddSingleton<OutcomeStore>();
        services.AddSingleton<PreferenceStore>();
        services.AddSingleton<PreferencesInForce>();
        services.AddSingleton<LearnedPreferences>();
        services.AddSingleton<ReadFacts>();
        services.AddSingleton<ReportOutcome>();
        services.AddSingleton<AccessKeyStore>();
        services.AddSingleton<ProtectionKeyStore>();
        services.AddSingleton<AccessKeys>();
        services.AddSingleton<AnswerRecommendation>();
        services.AddSingleton<AnswerSubstitution>();
        services.AddSingleton<AnswerSession>();
        services.AddSingleton<AnswerNeeds>();
        services.AddSingleton<ReadDecision>();
        services.AddSingleton<FindDecisions>();
        services.AddSingleton<WalkRecord>();
        services.AddSingleton<AuditDecision>();
        services.AddSingleton<DemoSquad>();
        services.AddSingleton<KeepAthlete>();
    }
}
