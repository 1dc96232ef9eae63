using System.Security.Cryptography;
using System.Text;
using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Storage.Tests.Decisions;

/// <summary>Records and claims that the log can take; what a test is about is set with <c>with</c>.</summary>
public static class RecordBuilder
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 1, 12, 0, 0, TimeSpan.Zero);

    private static readonly byte[] Personal = """{"coach":"HC-1","notes":{},"ref":"NM-04"}"""u8.ToArray();

    public static DecisionRecord Record(string id = "d-1", string organisation = "club") => new()
    {
        Organisation = organisation,
        DecisionId = id,
        Kind = "recommendation",
        CreatedAt = Noon,
        Status = "answered",
        Top = "back-squat",
        Versions = new VersionStamp(1, "c0ffee", "beef", null),
        Request = Encoding.UTF8.GetBytes($$"""{"phase":"taper","count":6,"only":"{{id}}"}"""),
        Personal = Personal,
        Coach = "HC-1",
        AthleteRef = "NM-04",
        PersonalSalt = "0123456789abcdef"u8.ToArray(),
        PersonalHash = SHA256.HashData([.. "0123456789abcdef"u8, .. Personal]),
        Answer = Encoding.UTF8.GetBytes($$$"""{"decisionId":"{{{id}}}","picks":[{"exercise":{"id":"back-squat"}}]}"""),
        Exercises = ["back-squat"],
    };

    public static IdempotencyClaim Claim(string key = "key-1", string body = "body", string response = "response", DateTimeOffset? at = null) =>
        new(key, SHA256.HashData(Encoding.UTF8.GetBytes(body)), Encoding.UTF8.GetBytes(response), at ?? Noon, (at ?? Noon).AddHours(-24));
}
