using System.Globalization;
using Recommender.Answers.Access;
using Recommender.Storage.Access;

namespace Recommender.Answers.Tests.Access;

public sealed class KeySecretTests
{
    private const string Secret = "6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f80818283";

    // Made with OpenSSL 3: openssl dgst -sha256 -mac HMAC -macopt hexkey:000102…0f over the 32 bytes 64…83 (hexadecimal).
    private static readonly SaltedHash ByOpenSsl = new(Convert.FromHexString("000102030405060708090a0b0c0d0e0f"), Convert.FromHexString("792eca7dbfb1759471f4ab947e99088db4effa7a8bc0152de5ca4b05dda6e1d1"));

    [Fact]
    public void A_secret_fits_the_hash_that_another_program_made_of_it_and_no_other()
    {
        Assert.True(KeySecret.Read($"accesskey-tf_0123456789abcdef_{Secret}")!.Fits(ByOpenSsl));
        Assert.False(KeySecret.Read($"accesskey-tf_0123456789abcdef_{Secret.Replace('8', '9')}")!.Fits(ByOpenSsl));
        Assert.False(KeySecret.Read($"accesskey-tf_0123456789abcdef_{Secret}")!.Fits(ByOpenSsl with { Salt = new byte[16] }));
    }

    [Fact]
    public void A_key_reads_back_as_it_was_shown_and_two_are_never_alike()
    {
        var (one, other) = (KeySecret.Make(), KeySecret.Make());

        Assert.Equal(one.Id, KeySecret.Read(one.Reveal())!.Id);
        Assert.True(KeySecret.Read(one.Reveal())!.Fits(one.Salted()));
        Assert.False(one.Fits(other.Salted()));
        Assert.NotEqual(one.Id, other.Id);
        Assert.NotEqual(one.Salted().Hash, one.Salted().Hash);
        Assert.Equal(one.Id, string.Create(CultureInfo.InvariantCulture, $"{one}"));
    }

    [Theory]
    [InlineData("")]
    [InlineData("accesskey-tf_")]
    [InlineData("accesskey-tf_0123456789abcdef-6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f80818283")]
    [InlineData("accesskey-tf_0123456789ABCDEF_6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f80818283")]
    [InlineData("accesskey-tf_0123456789abcdef_6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f8081828")]
    [InlineData("accesskey-tf_0123456789abcdef_6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f808182830")]
    [InlineData("Accesskey-tf_0123456789abcdef_6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f80818283")]
    [InlineData("accesskey-tf_0123456789abcdeg_6465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f80818283")]
    public void What_is_no_key_is_not_read(string text) => Assert.Null(KeySecret.Read(text));
}
