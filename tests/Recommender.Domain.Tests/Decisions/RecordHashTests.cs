using System.Security.Cryptography;
using System.Text;
using CsCheck;
using Recommender.Domain.Decisions;

namespace Recommender.Domain.Tests.Decisions;

/// <summary>
/// Hashes against the published examples of SHA-256: FIPS 180-4, Secure Hash Standard, NIST 2015, and its example document "SHA-256" (csrc.nist.gov, Cryptographic
/// Standards and Guidelines, Examples with Intermediate Values): one block "abc" and two blocks "abcdbcdecdef...nopq".
/// </summary>
public sealed class RecordHashTests
{
    [Theory]
    [InlineData("", "abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("abcdbcdecdefdefg", "efghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    public void A_personal_hash_is_sha_256_of_salt_and_part_as_fips_180_4_prints_it(string salt, string part, string digest) =>
        Assert.Equal(digest, RecordHash.Hex(RecordHash.OfPersonal(Encoding.ASCII.GetBytes(salt), Encoding.ASCII.GetBytes(part))));

    [Fact]
    public void What_is_hashed_is_canonical_whatever_the_fields_hold() =>
        Gen.Select(Gen.String, Gen.String.Null(), Gen.Long[1, long.MaxValue >> 11], Gen.Byte.Array[32]).Where(t => Unicode(t.Item1) && Unicode(t.Item2 ?? "")).Sample(t =>
        {
            var (text, other, sequence, previous) = t;
            var record = Record() with { Organisation = text, Kind = text, Top = other, Versions = new VersionStamp(3, text, text, other) };
            var body = new RecordHash(record).Body(sequence, previous);
            return body.AsSpan().SequenceEqual(CanonicalJson.Of(body));
        });

    [Fact]
    public void The_body_names_every_field_and_the_record_before()
    {
        var record = Record();

        // The answer's bytes are "abc" (FIPS 180-4), the request has none: SHA-256 of nothing, computed with a second implementation (coreutils sha256sum).
        Assert.Equal("""
            {"answerHash":"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad","createdAt":"2026-03-01T12:00:00.123Z","decisionId":"d-1","kind":"recommendation","organisation":"club","personalHash":"05","previousHash":"0102","requestHash":"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855","sequence":7,"status":"answered","top":null,"versions":{"catalogue":"cat","engine":2,"preference":null,"rules":"rul"}}
            """, Encoding.UTF8.GetString(new RecordHash(record).Body(7, [1, 2])));
    }

    [Fact]
    public void The_hash_is_that_of_the_body() =>
        Assert.Equal(SHA256.HashData(new RecordHash(Record()).Body(7, [1, 2])), new RecordHash(Record()).At(7, [1, 2]));

    [Fact]
    public void A_hash_hangs_on_place_and_on_what_came_before()
    {
        var hash = new RecordHash(Record());

        Assert.NotEqual(hash.At(1, RecordHash.Genesis), hash.At(2, RecordHash.Genesis));
        Assert.NotEqual(hash.At(1, RecordHash.Genesis), hash.At(1, hash.At(1, RecordHash.Genesis)));
    }

    [Fact]
    public void A_chain_starts_from_thirty_two_zeros()
    {
        Assert.Equal(RecordHash.Size, RecordHash.Genesis.Length);
        Assert.All(RecordHash.Genesis.ToArray(), b => Assert.Equal(0, b));
    }

    private static bool Unicode(string text) => text.All(c => !char.IsSurrogate(c));

    private static DecisionRecord Record() => new()
    {
        Organisation = "club",
        DecisionId = "d-1",
        Kind = "recommendation",
        CreatedAt = new DateTimeOffset(2026, 3, 1, 12, 0, 0, 123, TimeSpan.Zero),
        Status = "answered",
        Top = null,
        Versions = new VersionStamp(2, "cat", "rul", null),
        Request = default,
        Personal = default,
        AthleteRef = null,
        Coach = null,
        PersonalSalt = default,
        PersonalHash = new byte[] { 5 },
        Answer = "abc"u8.ToArray(),
    };
}
