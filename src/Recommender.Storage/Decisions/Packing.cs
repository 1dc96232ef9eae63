using System.Buffers;
using System.Buffers.Binary;
using System.Collections.Concurrent;
using ZstdSharp;
using ZstdSharp.Unsafe;

namespace Recommender.Storage.Decisions;

/// <summary>
/// Answers repeat their own words and those of other answers, so they are stored packed: number of the dictionary (0 for none), then a Zstandard frame (RFC 8878) with its
/// checksum, so that damage shows.
/// </summary>
internal sealed class Packing
{
    private const int Level = 1;
    private const int Header = sizeof(int);

    /// <summary>Longer than any answer, so that a damaged length does not ask for all memory.</summary>
    private const int Longest = 1 << 28;

    private readonly int number;
    private readonly byte[] dictionary;
    private readonly ConcurrentBag<Compressor> packers = [];
    private readonly ConcurrentBag<Decompressor> unpackers = [];

    /// <param name="number">Number under which the dictionary is stored; 0 for none.</param>
    /// <param name="dictionary">Text that answers repeat; empty for none.</param>
    public Packing(int number, byte[] dictionary)
    {
        this.number = number;
        this.dictionary = dictionary;
    }

    /// <summary>Packing without a dictionary.</summary>
    public static Packing Plain { get; } = new(0, []);

    /// <summary>Number of the dictionary that some bytes were packed with.</summary>
    /// <exception cref="InvalidDataException">They are too short to say.</exception>
    public static int DictionaryOf(ReadOnlySpan<byte> packed) =>
        BinaryPrimitives.TryReadInt32BigEndian(packed, out var number) ? number : throw new InvalidDataException("A packed answer does not name its dictionary.");

    /// <summary>Packed bytes.</summary>
    public byte[] Pack(ReadOnlySpan<byte> plain)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(plain.Length, Longest);
        var buffer = ArrayPool<byte>.Shared.Rent(Compressor.GetCompressBound(plain.Length) + Header);
        var packer = packers.TryTake(out var free) ? free : Packer();
        try
        {
            BinaryPrimitives.WriteInt32BigEndian(buffer, number);
            return buffer.AsSpan(0, packer.Wrap(plain, buffer.AsSpan(Header)) + Header).ToArray();
        }
        finally
        {
            packers.Add(packer);
            ArrayPool<byte>.Shared.Return(buffer);
        }
    }

    /// <summary>The bytes that were packed.</summary>
    /// <exception cref="InvalidDataException">They are damaged, or were packed with another dictionary.</exception>
    public byte[] Unpack(ReadOnlySpan<byte> packed)
    {
        if (DictionaryOf(packed) != number)
        {
            throw new InvalidDataException("A packed answer was packed with another dictionary.");
        }

        var unpacker = unpackers.TryTake(out var free) ? free : Unpacker();
        try
        {
            var length = Decompressor.GetDecompressedSize(packed[Header..]);
            if (packed.Length == Header || length > Longest)
            {
                throw new InvalidDataException("A packed answer is damaged.");
            }

            var plain = new byte[length];
            return unpacker.Unwrap(packed[Header..], plain) == plain.Length ? plain : throw new InvalidDataException("A packed answer is damaged.");
        }
        catch (ZstdException e)
        {
            throw new InvalidDataException("A packed answer is damaged.", e);
        }
        finally
        {
            unpackers.Add(unpacker);
        }
    }

    private Compressor Packer()
    {
        var packer = new Compressor(Level);
        packer.SetParameter(ZSTD_cParameter.ZSTD_c_checksumFlag, 1);
        if (dictionary.Length > 0)
        {
            packer.LoadDictionary(dictionary);
        }

        return packer;
    }

    private Decompressor Unpacker()
    {
        var unpacker = new Decompressor();
        if (dictionary.Length > 0)
        {
            unpacker.LoadDictionary(dictionary);
        }

        return unpacker;
    }
}
