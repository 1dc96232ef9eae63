using System.Buffers.Binary;
using System.Security.Cryptography;

namespace Recommender.Domain.Decisions;

/// <summary>Hashes that make a changed, missing or moved record visible: SHA-256 over the fields, each preceded by its length.</summary>
public static class RecordHash
{
    /// <summary>Bytes of a hash.</summary>
    public const int Size = 32;

    /// <summary>Hash before the first record of a chain: zeros.</summary>
    public static ReadOnlySpan<byte> Genesis => new byte[Size];

    /// <summary>Hash of some fields in a fixed order.</summary>
    /// <param name="fields">Fields; an absent one is empty.</param>
    public static byte[] Of(params ReadOnlySpan<ReadOnlyMemory<byte>> fields)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> length = stackalloc byte[sizeof(int)];
        foreach (var field in fields)
        {
            BinaryPrimitives.WriteInt32BigEndian(length, field.Length);
            hash.AppendData(length);
            hash.AppendData(field.Span);
        }

        return hash.GetHashAndReset();
    }

    /// <summary>Hash that a record carries: that of the record before it, then its own content.</summary>
    public static byte[] Link(ReadOnlySpan<byte> previous, ReadOnlySpan<byte> content)
    {
        Span<byte> both = stackalloc byte[Size * 2];
        previous.CopyTo(both);
        content.CopyTo(both[Size..]);
        return SHA256.HashData(both);
    }
}
