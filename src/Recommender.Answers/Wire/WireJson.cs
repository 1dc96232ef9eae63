using System.Text.Json;
using System.Text.Json.Serialization;
using Recommender.Answers.Learned;
using Recommender.Domain.Audit;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Outcomes;
using Recommender.Domain.Requests;
using Recommender.Domain.Sessions;
using Recommender.Domain.Substitutions;

namespace Recommender.Answers.Wire;

/// <summary>The shape in which requests and answers travel and are stored: camelCase names, kebab-case words, unknown properties refused.</summary>
/// <remarks>No converters in the options: the generated code then writes answers without asking tables, twice as fast. What needs a converter carries it.</remarks>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    MaxDepth = MaxDepth)]
[JsonSerializable(typeof(RecommendationRequest))]
[JsonSerializable(typeof(RecommendationBatch))]
[JsonSerializable(typeof(Answer))]
[JsonSerializable(typeof(SubstitutionRequest))]
[JsonSerializable(typeof(SubstitutionBatch))]
[JsonSerializable(typeof(SubstitutionAnswer))]
[JsonSerializable(typeof(SessionRequest))]
[JsonSerializable(typeof(SessionAnswer))]
[JsonSerializable(typeof(NeedsAnswer))]
[JsonSerializable(typeof(ComparisonAnswer))]
[JsonSerializable(typeof(CounterfactualsAnswer))]
[JsonSerializable(typeof(SensitivityAnswer))]
[JsonSerializable(typeof(Dictionary<string, string>))]
[JsonSerializable(typeof(Dictionary<string, string>[]))]
[JsonSerializable(typeof(PersonalPart))]
[JsonSerializable(typeof(KeptFacts))]
[JsonSerializable(typeof(OutcomeReport))]
[JsonSerializable(typeof(OutcomeFacts))]
[JsonSerializable(typeof(OutcomeBody))]
[JsonSerializable(typeof(OutcomeList))]
[JsonSerializable(typeof(PreferenceNumbers))]
[JsonSerializable(typeof(PreferenceReport))]
[JsonSerializable(typeof(PreferenceList))]
[JsonSerializable(typeof(CurrentPreference))]
[JsonSerializable(typeof(PreferenceInForce))]
[JsonSerializable(typeof(VerifyRequest))]
[JsonSerializable(typeof(ReplayRequest))]
[JsonSerializable(typeof(KeyRequest))]
[JsonSerializable(typeof(RotationRequest))]
[JsonSerializable(typeof(CatalogueDraft))]
[JsonSerializable(typeof(RulesDraft))]
[JsonSerializable(typeof(CurrentVersion))]
[JsonSerializable(typeof(ImpactRequest))]
[JsonSerializable(typeof(Exercise))]
[JsonSerializable(typeof(AthleteProfile))]
[JsonSerializable(typeof(Squad))]
[JsonSerializable(typeof(string))]
[JsonSerializable(typeof(decimal))]
[JsonSerializable(typeof(int))]
[JsonSerializable(typeof(IReadOnlyList<string>))]
[JsonSerializable(typeof(string[]))]
public sealed partial class WireJson : JsonSerializerContext
{
    /// <summary>Deepest nesting that a body may have.</summary>
    public const int MaxDepth = 32;

    private static WireJson? strict;
    private static WireJson? compact;

    /// <summary>For reading requests: a property that stands twice is refused, and null where a value must be is left to the checks.</summary>
    public static WireJson Strict => strict ??= new(new JsonSerializerOptions(Default.GeneratedSerializerOptions!) { AllowDuplicateProperties = false });

    /// <summary>For stored requests: what was left out stays out.</summary>
    public static WireJson Compact => compact ??= new(new JsonSerializerOptions(Default.GeneratedSerializerOptions!) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull });
}

/// <summary>Several requests at once.</summary>
public sealed record RecommendationBatch
{
    /// <summary>Requests, 1 to 500, answered in order.</summary>
    public IReadOnlyList<RecommendationRequest>? Requests { get; init; }
}

/// <summary>What of a request is about a person and can be erased.</summary>
/// <param name="Ref">The athlete's ref, or null.</param>
/// <param name="Coach">The coach's id, or null.</param>
/// <param name="Notes">Pointer to note.</param>
public sealed record PersonalPart(string? Ref, string? Coach, IReadOnlyDictionary<string, string> Notes);

/// <summary>A saved profile; a form is filled from it, a request never is.</summary>
/// <param name="Ref">The organisation's own reference.</param>
/// <param name="Name">Name.</param>
/// <param name="Athlete">Facts.</param>
/// <param name="Phase">Phase, or null.</param>
/// <param name="WeeksToCompetition">Weeks to the competition, or null.</param>
/// <param name="Setting">Usual setting, or null.</param>
/// <param name="Complaints">Open complaints, or null.</param>
/// <param name="Needs">Standing needs, or null.</param>
/// <param name="Competitions">Competitions ahead, instead of the weeks, or null.</param>
/// <param name="Tests">Latest test results, or null.</param>
/// <param name="NextTestOn">Day of the next test, or null.</param>
/// <param name="AsOf">Day on which everything that is counted in days or weeks was true; null where it stands as it was sent, whatever the day.</param>
public sealed record AthleteProfile(string Ref, string Name, AthleteFacts Athlete, string? Phase = null, decimal? WeeksToCompetition = null, SettingFacts? Setting = null,
    IReadOnlyList<Complaint>? Complaints = null, IReadOnlyList<CoachNeed>? Needs = null, IReadOnlyList<Competition>? Competitions = null, TestResults? Tests = null, DateOnly? NextTestOn = null, DateOnly? AsOf = null);

/// <summary>data/demo/squad.json.</summary>
/// <param name="Club">The invented club.</param>
/// <param name="Note">What it is for.</param>
/// <param name="Athletes">Its athletes.</param>
public sealed record Squad(string Club, string Note, IReadOnlyList<AthleteProfile> Athletes);
