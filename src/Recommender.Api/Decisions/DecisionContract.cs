using System.Text.Json;
using Recommender.Answers.Learned;
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
/// <param name="Facts">What was read from the store for the request, beside its versions; null when nothing was.</param>
/// <param name="Hashed">What was hashed. In canonical JSON (RFC 8785) its SHA-256 is <c>hash</c>.</param>
/// <param name="Hash">SHA-256 that the record carries, hexadecimal.</param>
/// <param name="PreviousHash">Hash of the record before it.</param>
/// <param name="PersonalDataErased">Whether ref, coach and notes were erased.</param>
/// <param name="Outcomes">All reports about its picks, oldest first, as GET /v1/decisions/{id}/outcomes gives them; empty when there are none. They stand beside the record and are not hashed.</param>
public sealed record DecisionBody(string DecisionId, string Kind, DateTimeOffset CreatedAt, string? AthleteRef, string? Coach, AnswerStatus Status, string? Top, VersionStamp Versions,
    RecommendationRequest Request, Answer Answer, KeptFacts? Facts, HashedBody Hashed, string Hash, string PreviousHash, bool PersonalDataErased, IReadOnlyList<OutcomeBody> Outcomes)
{
    /// <summary>The body's bytes; the stored answer goes in as it lies, so that it comes out byte for byte.</summary>
    internal static byte[] Bytes(StoredDecision stored, ReadOnlySpan<byte> request, IReadOnlyList<OutcomeBody> outcomes)
    {
        var record = stored.Record;
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream))
        {
            writer.WriteStartObject();
            writer.WriteString("decisionId", record.DecisionId);
            writer.WriteString("kind", record.Kind);
            writer.WriteString("createdAt", RecordHash.Moment(record.CreatedAt));
            writer.WriteString("athleteRef", record.AthleteRef);
            writer.WriteString("coach", record.Coach);
            writer.WriteString("status", record.Status);
            writer.WriteString("top", record.Top);
            writer.WritePropertyName("versions");
            JsonSerializer.Serialize(writer, record.Versions, WireJson.Default.VersionStamp);
            writer.WritePropertyName("request");
            writer.WriteRawValue(request, skipInputValidation: true);
            writer.WritePropertyName("answer");
            writer.WriteRawValue(record.Answer.Span, skipInputValidation: true);
            writer.WritePropertyName("facts");
            writer.WriteRawValue(record.Facts.IsEmpty ? "null"u8 : record.Facts.Span, skipInputValidation: true);
            writer.WritePropertyName("hashed");
            writer.WriteRawValue(new RecordHash(record).Body(stored.Sequence, stored.PreviousHash.Span), skipInputValidation: true);
            writer.WriteString("hash", RecordHash.Hex(stored.Hash.Span));
            writer.WriteString("previousHash", RecordHash.Hex(stored.PreviousHash.Span));
            writer.WriteBoolean("personalDataErased", stored.PersonalDataErased);
            writer.WriteStartArray("outcomes");
            foreach (var outcome in outcomes)
            {
                JsonSerializer.Serialize(writer, outcome, WireJson.Default.OutcomeBody);
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        return stream.ToArray();
    }
}

/// <summary>What is hashed of a record.</summary>
/// <param name="AnswerHash">SHA-256 of the answer's bytes.</param>
/// <param name="CreatedAt">When, UTC.</param>
/// <param name="DecisionId">Id.</param>
/// <param name="Kind">Kind of decision.</param>
/// <param name="Organisation">Who owns it.</param>
/// <param name="PersonalHash">SHA-256 of a random salt and the personal part; it tells nothing once both are erased.</param>
/// <param name="PreviousHash">Hash of the record before it; zeros for the first.</param>
/// <param name="RequestHash">SHA-256 of the request's bytes as they are stored, without the personal part.</param>
/// <param name="Sequence">Its place in the chain, from 1.</param>
/// <param name="Status">Status of the answer.</param>
/// <param name="Top">Exercise ranked first, or null.</param>
/// <param name="Versions">What it was made on.</param>
/// <param name="FactsHash">SHA-256 of the bytes of <c>facts</c> in canonical JSON; not there when nothing was read.</param>
public sealed record HashedBody(string AnswerHash, DateTimeOffset CreatedAt, string DecisionId, string Kind, string Organisation, string PersonalHash, string PreviousHash,
    string RequestHash, long Sequence, AnswerStatus Status, string? Top, VersionStamp Versions, string? FactsHash = null);

/// <summary>A page of the record.</summary>
/// <param name="Items">Decisions, newest first.</param>
/// <param name="NextCursor">Cursor of the next page, or null on the last.</param>
public sealed record DecisionList(IReadOnlyList<DecisionLine> Items, string? NextCursor);

/// <summary>A decision as a list shows it.</summary>
/// <param name="DecisionId">Id.</param>
/// <param name="Kind">recommendation, substitution or session.</param>
/// <param name="CreatedAt">When, UTC, to the millisecond.</param>
/// <param name="AthleteRef">The caller's own reference; null when none was sent or it was erased.</param>
/// <param name="Coach">The coach; null when none was sent or it was erased.</param>
/// <param name="Status">Status of the answer.</param>
/// <param name="Top">Exercise ranked first, or null.</param>
/// <param name="Versions">What it was made on.</param>
public sealed record DecisionLine(string DecisionId, string Kind, string CreatedAt, string? AthleteRef, string? Coach, string Status, string? Top, VersionStamp Versions)
{
    /// <summary>The line of a summary.</summary>
    public static DecisionLine Of(DecisionSummary s) => new(s.DecisionId, s.Kind, RecordHash.Moment(s.CreatedAt), s.AthleteRef, s.Coach, s.Status, s.Top, s.Versions);
}

/// <summary>What a walk along the chain found.</summary>
/// <param name="Intact">Whether every record fits.</param>
/// <param name="Checked">Records that fit, from the first on.</param>
/// <param name="FirstBroken">The first that does not, or null.</param>
/// <param name="Head">Hash of the last record that fits; noted elsewhere, it shows later that nothing before it was changed. Zeros for an empty chain.</param>
/// <param name="HeadFound">Whether a record carries the head that was asked about; null when none was.</param>
public sealed record Verification(bool Intact, long Checked, BrokenRecord? FirstBroken, string Head, bool? HeadFound)
{
    /// <summary>The body of a check.</summary>
    public static Verification Of(ChainCheck check) => new(check.FirstBroken is null, check.Checked,
        check.FirstBroken is { } broken ? new BrokenRecord(broken.DecisionId, broken.Position, broken.Problem) : null, RecordHash.Hex(check.Head.Span), check.HeadFound);
}

/// <summary>Where the chain does not hold.</summary>
/// <param name="DecisionId">The record, or null when it is not there.</param>
/// <param name="Position">Its place in the chain, from 1; 0 when it has none.</param>
/// <param name="Problem">What is wrong.</param>
public sealed record BrokenRecord(string? DecisionId, long Position, string Problem);
