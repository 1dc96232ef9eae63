using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;

namespace Recommender.Domain.Decisions;

/// <summary>
/// Hashes that make a changed, missing or moved record visible. What is hashed of a record is a small body in canonical JSON (RFC 8785), which names the record before it:
/// <c>{"answerHash","createdAt","decisionId","kind","organisation","personalHash","previousHash","requestHash","sequence","status","top","versions"}</c>.
/// Where something was read from the store for the request, <c>"factsHash"</c> stands after <c>"decisionId"</c>.
/// </summary>
/// <remarks>
/// Request and answer stand in it by the SHA-256 of their bytes as they are stored: a canonical form of them would be blind to how a number was written, and the
/// answer has to come out byte for byte. Everything is SHA-256 (FIPS 180-4), in lower-case hexadecimal.
/// </remarks>
public sealed class RecordHash
{
    /// <summary>Bytes of a hash.</summary>
    public const int Size = 32;

    private readonly DecisionRecord record;
    private readonly string answerHash;
    private readonly string requestHash;
    private readonly string? factsHash;

    /// <summary>Takes the hashes of request and answer, which need not wait for the record's place.</summary>
    /// <param name="record">The record.</param>
    public RecordHash(DecisionRecord record)
    {
        // The large parts are not held on to: a record may wait a while for its place.
        this.record = record with { Request = default, Answer = default, Personal = default, Facts = default };
        answerHash = Hex(SHA256.HashData(record.Answer.Span));
        requestHash = Hex(SHA256.HashData(record.Request.Span));
        factsHash = record.Facts.IsEmpty ? null : Hex(SHA256.HashData(record.Facts.Span));
    }

    /// <summary>Hash before the first record of a chain: zeros.</summary>
    public static ReadOnlySpan<byte> Genesis => new byte[Size];

    /// <summary>Hash of a personal part: SHA-256 of salt and part, one after the other. It tells nothing once both are gone.</summary>
    /// <param name="salt">Random bytes, of a fixed number.</param>
    /// <param name="personal">The part; empty when there is none.</param>
    public static byte[] OfPersonal(ReadOnlySpan<byte> salt, ReadOnlySpan<byte> personal) => SHA256.HashData([.. salt, .. personal]);

    /// <summary>Hash that the record carries at a place in its organisation's chain.</summary>
    /// <param name="sequence">Its place, from 1.</param>
    /// <param name="previous">Hash of the record before it; <see cref="Genesis"/> for the first.</param>
    public byte[] At(long sequence, ReadOnlySpan<byte> previous) => SHA256.HashData(Body(sequence, previous));

    /// <summary>What is hashed, in canonical JSON.</summary>
    /// <inheritdoc cref="At"/>
    public byte[] Body(long sequence, ReadOnlySpan<byte> previous)
    {
        // Members stand in the order that RFC 8785 sorts them into; a test holds this against the general form.
        var output = new ArrayBufferWriter<byte>(1024);
        Text("{\"answerHash\":"u8, answerHash);
        Text(",\"createdAt\":"u8, Moment(record.CreatedAt));
        Text(",\"decisionId\":"u8, record.DecisionId);
        if (factsHash is not null)
        {
            // Left out rather than null, so that records from before it was known hash as they did.
            Text(",\"factsHash\":"u8, factsHash);
        }

        Text(",\"kind\":"u8, record.Kind);
        Text(",\"organisation\":"u8, record.Organisation);
        Text(",\"personalHash\":"u8, Hex(record.PersonalHash.Span));
        Text(",\"previousHash\":"u8, Hex(previous));
        Text(",\"requestHash\":"u8, requestHash);
        Whole(",\"sequence\":"u8, sequence);
        Text(",\"status\":"u8, record.Status);
        Text(",\"top\":"u8, record.Top);
        Text(",\"versions\":{\"catalogue\":"u8, record.Versions.Catalogue);
        Whole(",\"engine\":"u8, record.Versions.Engine);
        Text(",\"preference\":"u8, record.Versions.Preference);
        Text(",\"rules\":"u8, record.Versions.Rules);
        output.Write("}}"u8);
        return output.WrittenSpan.ToArray();

        void Text(ReadOnlySpan<byte> before, string? value)
        {
            output.Write(before);
            if (value is null)
            {
                output.Write("null"u8);
                return;
            }

            CanonicalJson.Write(value, output);
        }

        void Whole(ReadOnlySpan<byte> before, long value)
        {
            output.Write(before);
            value.TryFormat(output.GetSpan(20), out var written, provider: CultureInfo.InvariantCulture);
            output.Advance(written);
        }
    }

    /// <summary>How a moment is written: UTC, milliseconds, Z.</summary>
    public static string Moment(DateTimeOffset moment) => moment.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture);

    /// <summary>How a hash is written: lower-case hexadecimal.</summary>
    public static string Hex(ReadOnlySpan<byte> hash) => Convert.ToHexStringLower(hash);
}
