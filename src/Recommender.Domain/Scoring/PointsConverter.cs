using System.Text.Json;
using System.Text.Json.Serialization;

namespace Recommender.Domain.Scoring;

/// <summary>Points as a JSON number with at most three decimals.</summary>
public sealed class PointsConverter : JsonConverter<Points>
{
    /// <inheritdoc/>
    public override Points Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Points.Of(reader.GetDecimal());

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, Points value, JsonSerializerOptions options)
    {
        if (value.Thousandths % 1000 == 0)
        {
            writer.WriteNumberValue(value.Thousandths / 1000);
        }
        else
        {
            writer.WriteNumberValue(value.Value);
        }
    }
}
