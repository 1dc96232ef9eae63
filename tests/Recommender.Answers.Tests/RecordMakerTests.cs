using System.Security.Cryptography;
using System.Text;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Testing;
using static Recommender.Answers.Tests.Desk;

namespace Recommender.Answers.Tests;

public sealed class RecordMakerTests
{
    /// <summary>A change of each field that the hash covers itself.</summary>
    private static readonly Dictionary<string, Func<DecisionRecord, DecisionRecord>> Changes = new()
    {
        [nameof(DecisionRecord.Organisation)] = r => r with { Organisation = "academy" },
        [nameof(DecisionRecord.DecisionId)] = r => r with { DecisionId = r.DecisionId + "0" },
        [nameof(DecisionRecord.Kind)] = r => r with { Kind = "session" },
        [nameof(DecisionRecord.CreatedAt)] = r => r with { CreatedAt = r.CreatedAt.AddMilliseconds(1) },
        [nameof(DecisionRecord.Status)] = r => r with { Status = "referred" },
        [nameof(DecisionRecord.Top)] = r => r with { Top = "another" },
        ["Top taken away"] = r => r with { Top = null },
        [nameof(VersionStamp.Engine)] = r => r with { Versions = r.Versions with { Engine = r.Versions.Engine + 1 } },
        [nameof(VersionStamp.Catalogue)] = r => r with { Versions = r.Versions with { Catalogue = "another" } },
        [nameof(VersionStamp.Rules)] = r => r with { Versions = r.Versions with { Rules = "another" } },
        [nameof(VersionStamp.Preference)] = r => r with { Versions = r.Versions with { Preference = "another" } },
        ["Catalogue and rules changed over"] = r => r with { Versions = r.Versions with { Catalogue = r.Versions.Rules, Rules = r.Versions.Catalogue } },
        [nameof(DecisionRecord.Request)] = r => r with { Request = Flip(r.Request) },
        [nameof(DecisionRecord.PersonalHash)] = r => r with { PersonalHash = Flip(r.PersonalHash) },
        [nameof(DecisionRecord.Facts)] = r => r with { Facts = new byte[] { 1 } },
        [nameof(DecisionRecord.Answer)] = r => r with { Answer = Flip(r.Answer) },
        ["A byte moved from request to answer"] = r => r with { Request = r.Request[..^1], Answer = (byte[])[r.Request.Span[^1], .. r.Answer.Span] },
    };

    /// <summary>Fields that the personal hash covers, ref and coach as parts of the personal part, and what only repeats the answer.</summary>
    private static readonly string[] Erasable = [nameof(DecisionRecord.Personal), nameof(DecisionRecord.PersonalSalt), nameof(DecisionRecord.AthleteRef), nameof(DecisionRecord.Coach), nameof(DecisionRecord.Exercises)];

    public static TheoryData<string> Fields => [.. Changes.Keys];

    [Fact]
    public void The_personal_part_is_canonical_and_its_hash_that_of_salt_and_part()
    {
        var record = Make();

        Assert.Equal(SHA256.HashData([.. record.PersonalSalt.Span, .. record.Personal.Span]), record.PersonalHash.ToArray());
        Assert.Equal(new { record.AthleteRef, record.Coach }.ToString(), new { AthleteRef = "NM-04", Coach = "HC-1" }.ToString());
        Assert.Equal("""{"coach":"HC-1","notes":{},"ref":"NM-04"}""", Encoding.UTF8.GetString(record.Personal.Span));
    }

    [Theory]
    [MemberData(nameof(Fields))]
    public void A_changed_field_changes_the_hash(string field)
    {
        var record = Make();

        Assert.NotEqual(new RecordHash(record).At(1, RecordHash.Genesis), new RecordHash(Changes[field](record)).At(1, RecordHash.Genesis));
    }

    [Fact]
    public void No_field_is_forgotten()
    {
        var fields = typeof(DecisionRecord).GetProperties().Concat(typeof(VersionStamp).GetProperties()).Select(p => p.Name).Except([nameof(DecisionRecord.Versions), "EqualityContract"]);

        Assert.Empty(fields.Except(Changes.Keys).Except(Erasable));
    }

    [Fact]
    public void The_same_request_twice_tells_nothing_by_its_personal_hash()
    {
        Assert.NotEqual(Make().PersonalSalt.ToArray(), Make().PersonalSalt.ToArray());
        Assert.NotEqual(Make().PersonalHash.ToArray(), Make().PersonalHash.ToArray());
    }

    [Fact]
    public void The_moment_is_kept_in_whole_milliseconds() =>
        Assert.Equal(new DateTimeOffset(2026, 3, 1, 12, 0, 0, 123, TimeSpan.Zero), Make().CreatedAt);

    private static DecisionRecord Make()
    {
        var request = Least() with { Athlete = new AthleteFacts { EventGroup = "jumps", Ref = "NM-04" }, Coach = "HC-1" };
        var answer = Domain.RecommendationPipeline.Answer(request, TestEdition.Current, "an-id");
        return RecordMaker.Make("club", DecisionKind.Recommendation, request, answer, "{}"u8.ToArray(), Now);
    }

    private static byte[] Flip(ReadOnlyMemory<byte> bytes)
    {
        var flipped = bytes.ToArray();
        flipped[^1] ^= 1;
        return flipped;
    }
}
