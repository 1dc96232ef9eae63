using System.Collections.Concurrent;
using System.Security.Cryptography;
using Dapper;

namespace Recommender.Storage.Decisions;

/// <summary>The dictionaries that answers of a store are packed with. One that was used once is kept for good.</summary>
/// <param name="store">The open store.</param>
public sealed class Packings(Store store)
{
    private const string Add = "INSERT INTO dictionaries (hash, content) VALUES (@hash, @content) ON CONFLICT (hash) DO NOTHING";
    private const string NumberOf = "SELECT number FROM dictionaries WHERE hash = @hash ORDER BY number LIMIT 1";
    private const string ContentOf = "SELECT content FROM dictionaries WHERE number = @number ORDER BY number LIMIT 1";

    private readonly ConcurrentDictionary<int, Packing> byNumber = new([KeyValuePair.Create(0, Packing.Plain)]);
    private volatile Packing current = Packing.Plain;

    /// <summary>Packs what is stored from now on with a dictionary.</summary>
    /// <param name="content">Text that answers repeat, what they repeat most at its end.</param>
    /// <exception cref="StoreUnavailableException">It cannot be stored; nothing changes.</exception>
    public async Task Use(byte[] content)
    {
        var hash = SHA256.HashData(content);
        var number = await store.Use(async c =>
        {
            await c.ExecuteAsync(Add, new { hash, content }).ConfigureAwait(false);
            return await c.QuerySingleAsync<int>(NumberOf, new { hash }).ConfigureAwait(false);
        }).ConfigureAwait(false);
        current = byNumber.GetOrAdd(number, n => new Packing(n, content));
    }

    /// <summary>Packed bytes.</summary>
    internal byte[] Pack(ReadOnlySpan<byte> plain) => current.Pack(plain);

    /// <summary>The bytes that were packed, with whatever dictionary.</summary>
    /// <exception cref="InvalidDataException">They are damaged, or their dictionary is gone.</exception>
    /// <exception cref="StoreUnavailableException">The dictionary cannot be read now.</exception>
    internal byte[] Unpack(ReadOnlySpan<byte> packed)
    {
        var number = Packing.DictionaryOf(packed);
        if (!byNumber.TryGetValue(number, out var packing))
        {
            var content = store.UseNow(c => c.QuerySingleOrDefault<byte[]>(ContentOf, new { number })) ?? throw new InvalidDataException("A packed answer's dictionary is not there.");
            packing = byNumber.GetOrAdd(number, n => new Packing(n, content));
        }

        return packing.Unpack(packed);
    }
}
