using System.Text.Json;
using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>Enum values as kebab-case words, in values and in property names; numbers are refused.</summary>
/// <typeparam name="T">The enum.</typeparam>
public sealed class KebabEnumConverter<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false)
    where T : struct, Enum;
