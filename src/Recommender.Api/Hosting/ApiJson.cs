using System.Text.Json.Serialization;
using Recommender.Api.Exercises;
using Recommender.Api.Problems;
using Recommender.Domain.Catalogue;

namespace Recommender.Api.Hosting;

/// <summary>JSON of what the API adds to requests and answers.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(ProblemBody))]
[JsonSerializable(typeof(ExercisePage))]
[JsonSerializable(typeof(Exercise))]
public sealed partial class ApiJson : JsonSerializerContext;
