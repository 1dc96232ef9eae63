using System.Security.Cryptography;
using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;

namespace Recommender.Answers;

/// <summary>Makes the record of an answer: the personal part set apart.</summary>
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
        var personal = part is null ? [] : CanonicalJson.Of(JsonSerializer.SerializeToUtf8Bytes(part, WireJson.Compact.PersonalPart));
        var salt = RandomNumberGenerator.GetBytes(SaltSize);
        return new DecisionRecord
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
            Coach = part?.Coach,
            PersonalSalt = salt,
            PersonalHash = RecordHash.OfPersonal(salt, personal),
            Answer = sent,
            Facts = ReadFacts.Kept(kind.ContextOf(request)?.Read),
            Exercises = answer.Exercises,
        };
    }
}
