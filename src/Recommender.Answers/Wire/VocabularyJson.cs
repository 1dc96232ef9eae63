using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers.Wire;

/// <summary>The shape in which the vocabulary travels; apart from <see cref="WireJson"/>, since its lists need converters in the options.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
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
public sealed partial class VocabularyJson : JsonSerializerContext;
