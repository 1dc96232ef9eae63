using System.Security.Cryptography;
using System.Text;
using Recommender.Storage.Access;

namespace Recommender.Answers.Access;

/// <summary>
/// A key as its owner holds it: accesskey-tf_ID_SECRET, where the id is 16 hexadecimal digits and the secret 64 (256 random bits). The start is there to be recognised, by people and by scanners that look for
/// secrets in texts.
/// </summary>
/// <remarks>
/// Of the secret a keyed hash (HMAC-SHA-256, RFC 2104) under a salt of its own is kept. A slow hash is for secrets that can be guessed; 256 random bits cannot, whatever the hash costs, and a slow one
/// would cost every request its time.
/// </remarks>
public sealed class KeySecret
{
    /// <summary>What every key starts with.</summary>
    public const string Prefix = "accesskey-tf_";

    private const int IdDigits = 16;
    private const int SecretBytes = 32;
    private const int SaltBytes = 16;
    private const int Length = 13 + IdDigits + 1 + (SecretBytes * 2);
    private readonly byte[] secret;

    private KeySecret(string id, byte[] secret)
    {
        Id = id;
        this.secret = secret;
    }

    /// <summary>The id; no secret.</summary>
    public string Id { get; }

    /// <summary>A new key.</summary>
    public static KeySecret Make() => For(Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(IdDigits / 2)));

    /// <summary>A new secret for a key that is there.</summary>
    public static KeySecret For(string id) => new(id, RandomNumberGenerator.GetBytes(SecretBytes));

    /// <summary>Reads a key as it was sent; null when it is none.</summary>
    public static KeySecret? Read(ReadOnlySpan<char> text)
    {
        if (text.Length != Length || !text.StartsWith(Prefix, StringComparison.Ordinal) || text[Prefix.Length + IdDigits] != '_')
        {
            return null;
        }

        var id = text.Slice(Prefix.Length, IdDigits);
        var digits = text[(Prefix.Length + IdDigits + 1)..];
        return IsHex(id) && IsHex(digits) ? new KeySecret(id.ToString(), Convert.FromHexString(digits)) : null;
    }

    /// <summary>What is kept of it, under a salt of its own.</summary>
    public SaltedHash Salted()
    {
        var salt = RandomNumberGenerator.GetBytes(SaltBytes);
        return new SaltedHash(salt, HMACSHA256.HashData(salt, secret));
    }

    /// <summary>Whether it is the secret that a hash was made of; takes the same time whatever differs.</summary>
    public bool Fits(SaltedHash kept)
    {
        Span<byte> hash = stackalloc byte[HMACSHA256.HashSizeInBytes];
        HMACSHA256.HashData(kept.Salt, secret, hash);
        return CryptographicOperations.FixedTimeEquals(hash, kept.Hash);
    }

    /// <summary>The key for its owner, whole. To be shown once and never written anywhere.</summary>
    public string Reveal() => new StringBuilder(Length).Append(Prefix).Append(Id).Append('_').Append(Convert.ToHexStringLower(secret)).ToString();

    /// <summary>The id alone, so that a secret does not get into a text by accident.</summary>
    public override string ToString() => Id;

    private static bool IsHex(ReadOnlySpan<char> digits)
    {
        foreach (var digit in digits)
        {
            if (!char.IsAsciiHexDigitLower(digit))
            {
                return false;
            }
        }

        return true;
    }
}
