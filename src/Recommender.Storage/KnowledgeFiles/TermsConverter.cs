using System.Text.Json;
using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>A list of terms as a plain JSON array.</summary>
/// <typeparam name="T">Kind of term.</typeparam>
public sealed class TermsConverter<T> : JsonConverter<Terms<T>> where T : Term
{
    /// <inheritdoc/>
    public override Terms<T> Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        var items = (List<T>?)JsonSerializer.Deserialize(ref reader, options.GetTypeInfo(typeof(List<T>))) ?? throw new JsonException("A list of terms is needed.");
        if (items.GroupBy(t => t.Id, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new JsonException($"\"{twice.Key}\" stands twice in its list; ids are unique.");
        }

        return new Terms<T>(items);
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Terms<T> value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(writer, value.ToList(), options.GetTypeInfo(typeof(List<T>)));
}
