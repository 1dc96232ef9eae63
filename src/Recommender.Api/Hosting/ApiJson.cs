using System.Text.Json.Serialization;
using Recommender.Answers;
using Recommender.Api.Access;
using Recommender.Api.CatalogueVersions;
using Recommender.Api.Decisions;
using Recommender.Api.Exercises;
using Recommender.Api.Problems;
using Recommender.Domain.Catalogue;

namespace Recommender.Api.Hosting;

/// <summary>JSON of what the API adds to requests and answers.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(ProblemBody))]
[JsonSerializable(typeof(ExercisePage))]
[JsonSerializable(typeof(Exercise))]
[JsonSerializable(typeof(DecisionList))]
[JsonSerializable(typeof(Verification))]
[JsonSerializable(typeof(Replay))]
[JsonSerializable(typeof(VersionList))]
[JsonSerializable(typeof(VersionDraft))]
[JsonSerializable(typeof(VersionDifference))]
[JsonSerializable(typeof(VersionInForce))]
[JsonSerializable(typeof(ImpactProgress))]
[JsonSerializable(typeof(ImpactLine))]
[JsonSerializable(typeof(ImpactSummary))]
[JsonSerializable(typeof(KeyList))]
[JsonSerializable(typeof(NewKey))]
public sealed partial class ApiJson : JsonSerializerContext;
