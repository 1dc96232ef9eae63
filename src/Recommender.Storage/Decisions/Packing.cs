using System.Buffers;
using System.Buffers.Binary;
using System.IO.Compression;

namespace Recommender.Storage.Decisions;

/// <summary>Answers repeat their own words, so they are stored packed: length, then Brotli at its fastest.</summary>
internal static class Packing
{
    private const int Quality = 0;
    private const int Window = 18;

    /// <summary>Longer than any answer, so that a damaged length does not ask for all memory.</summary>
    private const int Longest = 1 << 28;

    /// <summary>Packed bytes.</summary>
    public static byte[] Pack(ReadOnlySpan<byte> plain)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(plain.Length, Longest);
        var buffer = ArrayPool<byte>.Shared.Rent(BrotliEncoder.GetMaxCompressedLength(plain.Length) + sizeof(int));
        try
        {
            BinaryPrimitives.WriteInt32BigEndian(buffer, plain.Length);
            return BrotliEncoder.TryCompress(plain, buffer.AsSpan(sizeof(int)), out var written, Quality, Window)
                ? buffer.AsSpan(0, written + sizeof(int)).ToArray()
                : throw new InvalidOperationException("The buffer holds the longest packed form.");
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    /// <summary>The bytes that were packed.</summary>
    /// <exception cref="InvalidDataException">They are damaged.</exception>
    public static byte[] Unpack(ReadOnlySpan<byte> packed)
    {
        if (!BinaryPrimitives.TryReadInt32BigEndian(packed, out var length) || length is < 0 or > Longest)
        {
            throw new InvalidDataException("A packed answer does not start with its length.");
        }

        var plain = new byte[length];
        return BrotliDecoder.TryDecompress(packed[sizeof(int)..], plain, out var written) && written == plain.Length
            ? plain
            : throw new InvalidDataException("A packed answer is damaged.");
    }
}
