using System.Globalization;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Decisions;

/// <summary>A decision as it was stored.</summary>
/// <param name="DecisionId">Id.</param>
/// <param name="Kind">recommendation, substitution or session.</param>
/// <param name="CreatedAt">When, UTC.</param>
/// <param name="AthleteRef">The caller's own reference, or null.</param>
/// <param name="Coach">The coach, or null.</param>
/// <param name="Status">Status of the answer.</param>
/// <param name="Top">Exercise ranked first, or null.</param>
/// <param name="Versions">What it was made on.</param>
/// <param name="Request">The request as sent.</param>
/// <param name="Answer">The answer, byte for byte.</param>
/// <param name="Hash">SHA-256 that the record carries, hexadecimal.</param>
/// <param name="PreviousHash">Hash of the record before it.</param>
/// <param name="PersonalDataErased">Whether ref and notes were erased.</param>
public sealed record DecisionBody(string DecisionId, string Kind, DateTimeOffset CreatedAt, string? AthleteRef, string? Coach, AnswerStatus Status, string? Top, VersionStamp Versions,
    RecommendationRequest Request, Answer Answer, string Hash, string PreviousHash, bool PersonalDataErased)
{
    /// <summary>The body's bytes; the stored answer goes in as it lies, so that it comes out byte for byte.</summary>
    internal static byte[] Bytes(StoredDecision stored, ReadOnlySpan<byte> request)
    {
        var record = stored.Record;
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            writer.WriteString("decisionId", record.DecisionId);
            writer.WriteString("kind", record.Kind);
            writer.WriteString("createdAt", record.CreatedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
            writer.WriteString("athleteRef", record.AthleteRef);
            writer.WriteNull("coach");
            writer.WriteString("status", record.Status);
            writer.WriteString("top", record.Top);
            writer.WritePropertyName("versions");
            JsonSerializer.Serialize(writer, record.Versions, WireJson.Default.VersionStamp);
            writer.WritePropertyName("request");
            writer.WriteRawValue(request, skipInputValidation: true);
            writer.WritePropertyName("answer");
            writer.WriteRawValue(record.Answer.Span, skipInputValidation: true);
            writer.WriteString("hash", Convert.ToHexStringLower(stored.Hash.Span));
            writer.WriteString("previousHash", Convert.ToHexStringLower(stored.PreviousHash.Span));
            writer.WriteBoolean("personalDataErased", stored.PersonalDataErased);
            writer.WriteEndObject();
        }

        return stream.ToArray();
    }
}
