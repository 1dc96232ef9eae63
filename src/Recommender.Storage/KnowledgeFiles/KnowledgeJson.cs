using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>How knowledge files are read: camelCase names, kebab-case words, unknown and missing properties refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    GenerationMode = JsonSourceGenerationMode.Metadata,
    Converters =
    [
        typeof(TermsConverter<Term>), typeof(TermsConverter<EventTerm>), typeof(TermsConverter<PlaceTerm>), typeof(TermsConverter<RegionTerm>),
        typeof(TermsConverter<RedFlagTerm>), typeof(TermsConverter<QualityAlias>),
    ])]
[JsonSerializable(typeof(Vocabulary))]
[JsonSerializable(typeof(List<Term>))]
[JsonSerializable(typeof(List<EventTerm>))]
[JsonSerializable(typeof(List<PlaceTerm>))]
[JsonSerializable(typeof(List<RegionTerm>))]
[JsonSerializable(typeof(List<RedFlagTerm>))]
[JsonSerializable(typeof(List<QualityAlias>))]
[JsonSerializable(typeof(Source))]
[JsonSerializable(typeof(Exercise))]
[JsonSerializable(typeof(TissueLoadModel))]
[JsonSerializable(typeof(TissueLoadFitted))]
[JsonSerializable(typeof(EventGroupProfile))]
[JsonSerializable(typeof(NeedRules))]
[JsonSerializable(typeof(PainRules))]
[JsonSerializable(typeof(PeakingRules))]
[JsonSerializable(typeof(WeekRules))]
[JsonSerializable(typeof(SubstitutionRules))]
[JsonSerializable(typeof(CompetenceRules))]
[JsonSerializable(typeof(ScoringRules))]
[JsonSerializable(typeof(DoseRules))]
[JsonSerializable(typeof(LedgerRules))]
[JsonSerializable(typeof(SessionRules))]
[JsonSerializable(typeof(QuestionRules))]
[JsonSerializable(typeof(PlanningRules))]
[JsonSerializable(typeof(OutcomeRules))]
[JsonSerializable(typeof(DefaultRules))]
[JsonSerializable(typeof(TestBattery))]
[JsonSerializable(typeof(ProvocationRules))]
[JsonSerializable(typeof(ProgrammeRules))]
[JsonSerializable(typeof(ReturnRules))]
[JsonSerializable(typeof(AuditRules))]
public sealed partial class KnowledgeJson : JsonSerializerContext;
