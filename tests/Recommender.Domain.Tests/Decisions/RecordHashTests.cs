using System.Text;
using Recommender.Domain.Decisions;

namespace Recommender.Domain.Tests.Decisions;

/// <summary>
/// Hashes against the published examples of SHA-256: FIPS 180-4, Secure Hash Standard, NIST 2015, and its example document "SHA-256" (csrc.nist.gov, Cryptographic
/// Standards and Guidelines, Examples with Intermediate Values): one block "abc" and two blocks "abcdbcdecdef...nopq".
/// </summary>
public sealed class RecordHashTests
{
    [Theory]
    [InlineData("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1")]
    public void The_hash_underneath_is_sha_256_as_fips_180_4_prints_it(string message, string digest)
    {
        // A link hashes 64 bytes as they are; shorter messages go through the runtime's own function, which both calls use.
        Assert.Equal(digest, Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(Encoding.ASCII.GetBytes(message))));
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData([0, 0, 0, (byte)message.Length, .. Encoding.ASCII.GetBytes(message)])),
            Convert.ToHexStringLower(RecordHash.Of(Encoding.ASCII.GetBytes(message))));
    }

    /// <summary>SHA-256 of 64 zero bytes, so that the link of nothing to nothing is a known number; computed with a second implementation (coreutils sha256sum).</summary>
    [Fact]
    public void A_link_is_sha_256_of_the_hash_before_and_the_content() =>
        Assert.Equal("f5a5fd42d16a20302798ef6ed309979b43003d2320d9f0e8ea9831a92759fb4b", Convert.ToHexStringLower(RecordHash.Link(RecordHash.Genesis, new byte[32])));

    [Fact]
    public void Fields_do_not_run_into_each_other() => Assert.NotEqual(Of("ab", "c"), Of("a", "bc"));

    [Fact]
    public void An_empty_field_counts() => Assert.NotEqual(Of("a", ""), Of("a"));

    [Fact]
    public void The_order_of_fields_counts() => Assert.NotEqual(Of("a", "b"), Of("b", "a"));

    [Fact]
    public void A_link_hangs_on_what_came_before()
    {
        var content = RecordHash.Of("x"u8.ToArray());
        Assert.NotEqual(RecordHash.Link(RecordHash.Genesis, content), RecordHash.Link(RecordHash.Of("y"u8.ToArray()), content));
        Assert.NotEqual(RecordHash.Link(content, RecordHash.Genesis), RecordHash.Link(RecordHash.Genesis, content));
    }

    [Fact]
    public void A_chain_starts_from_thirty_two_zeros()
    {
        Assert.Equal(RecordHash.Size, RecordHash.Genesis.Length);
        Assert.All(RecordHash.Genesis.ToArray(), b => Assert.Equal(0, b));
    }

    private static string Of(params string[] fields) => Convert.ToHexStringLower(RecordHash.Of([.. fields.Select(f => (ReadOnlyMemory<byte>)Encoding.UTF8.GetBytes(f))]));
}
