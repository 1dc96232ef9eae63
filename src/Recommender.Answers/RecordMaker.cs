using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;

namespace Recommender.Answers;

/// <summary>Makes the record of an answer: the personal part set apart, everything else hashed.</summary>
internal static class RecordMaker
{
    private const int SaltSize = 16;

    /// <summary>The record.</summary>
    /// <param name="organisation">Who owns it.</param>
    /// <param name="kind">recommendation, substitution or session.</param>
    /// <param name="request">The request as sent.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="sent">The answer's bytes.</param>
    /// <param name="createdAt">When.</param>
    public static DecisionRecord Make(string organisation, string kind, RecommendationRequest request, Answer answer, byte[] sent, DateTimeOffset createdAt)
    {
        var moment = DateTimeOffset.FromUnixTimeMilliseconds(createdAt.ToUnixTimeMilliseconds());
        var personal = PersonalPartOf(request) is { } part ? JsonSerializer.SerializeToUtf8Bytes(part, WireJson.Compact.PersonalPart) : [];
        var salt = RandomNumberGenerator.GetBytes(SaltSize);
        var personalHash = RecordHash.Of(salt, personal);
        var asked = JsonSerializer.SerializeToUtf8Bytes(WithoutPersonalPart(request), WireJson.Compact.RecommendationRequest);
        var status = JsonNamingPolicy.KebabCaseLower.ConvertName(answer.Status.ToString());
        var top = answer.Picks.Count > 0 ? answer.Picks[0].Exercise.Id : null;
        var record = new DecisionRecord
        {
            Organisation = organisation,
            DecisionId = answer.DecisionId,
            Kind = kind,
            CreatedAt = moment,
            Status = status,
            Top = top,
            Versions = answer.Versions,
            Request = asked,
            Personal = personal,
            AthleteRef = request.Athlete?.Ref,
            PersonalSalt = salt,
            PersonalHash = personalHash,
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

    private static PersonalPart? PersonalPartOf(RecommendationRequest request)
    {
        var notes = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < (request.Complaints?.Count ?? 0); i++)
        {
            if (request.Complaints![i].Note is { } note)
            {
                notes[$"/complaints/{i}/note"] = note;
            }
        }

        return request.Athlete?.Ref is null && notes.Count == 0 ? null : new PersonalPart(request.Athlete?.Ref, notes);
    }

    private static RecommendationRequest WithoutPersonalPart(RecommendationRequest request) => request with
    {
        Athlete = request.Athlete is { } athlete ? athlete with { Ref = null } : null,
        Complaints = request.Complaints is { } complaints ? [.. complaints.Select(c => c with { Note = null })] : null,
    };

    /// <summary>A stored request with its personal part put back.</summary>
    public static RecommendationRequest Whole(ReadOnlySpan<byte> request, ReadOnlySpan<byte> personal)
    {
        var asked = JsonSerializer.Deserialize(request, WireJson.Compact.RecommendationRequest)!;
        if (personal.IsEmpty)
        {
            return asked;
        }

        var part = JsonSerializer.Deserialize(personal, WireJson.Compact.PersonalPart)!;
        return asked with
        {
            Athlete = asked.Athlete! with { Ref = part.Ref },
            Complaints = asked.Complaints is { } complaints
                ? [.. complaints.Select((c, i) => part.Notes.TryGetValue($"/complaints/{i}/note", out var note) ? c with { Note = note } : c)]
                : null,
        };
    }
}
