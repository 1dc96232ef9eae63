using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;

namespace Recommender.Answers;

/// <summary>Makes the record of an answer: the personal part set apart, everything else hashed.</summary>
internal static class RecordMaker
{
    private const int SaltSize = 16;

    /// <summary>The record.</summary>
    /// <param name="organisation">Who owns it.</param>
    /// <param name="kind">Kind of decision.</param>
    /// <param name="request">The request as sent.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="sent">The answer's bytes.</param>
    /// <param name="createdAt">When.</param>
    public static DecisionRecord Make<TRequest, TAnswer>(string organisation, DecisionKind<TRequest, TAnswer> kind, TRequest request, TAnswer answer, byte[] sent, DateTimeOffset createdAt)
        where TRequest : class
        where TAnswer : class, IDecided
    {
        var moment = DateTimeOffset.FromUnixTimeMilliseconds(createdAt.ToUnixTimeMilliseconds());
        var (asked, part) = kind.Split(request);
        var personal = part is null ? [] : JsonSerializer.SerializeToUtf8Bytes(part, WireJson.Compact.PersonalPart);
        var salt = RandomNumberGenerator.GetBytes(SaltSize);
        var record = new DecisionRecord
        {
            Organisation = organisation,
            DecisionId = answer.DecisionId,
            Kind = kind.Id,
            CreatedAt = moment,
            Status = JsonNamingPolicy.KebabCaseLower.ConvertName(answer.Status.ToString()),
            Top = answer.Top,
            Versions = answer.Versions,
            Request = asked,
            Personal = personal,
            AthleteRef = part?.Ref,
            PersonalSalt = salt,
            PersonalHash = RecordHash.Of(salt, personal),
            Answer = sent,
            ContentHash = default,
        };
        return record with { ContentHash = ContentHashOf(record) };
    }

    /// <summary>Hash over every field of a record; the personal part, its salt and the ref are covered by the personal hash, so that they can be erased.</summary>
    public static byte[] ContentHashOf(DecisionRecord record)
    {
        var numbers = new byte[sizeof(long) + sizeof(int)];
        BinaryPrimitives.WriteInt64BigEndian(numbers, record.CreatedAt.ToUnixTimeMilliseconds());
        BinaryPrimitives.WriteInt32BigEndian(numbers.AsSpan(sizeof(long)), record.Versions.Engine);
        return RecordHash.Of(Text(record.Organisation), Text(record.DecisionId), Text(record.Kind), numbers, Text(record.Status), Text(record.Top), Text(record.Versions.Catalogue),
            Text(record.Versions.Rules), Text(record.Versions.Preference), record.Request, record.PersonalHash, record.Answer);

        static byte[] Text(string? value) => Encoding.UTF8.GetBytes(value ?? "");
    }
}
