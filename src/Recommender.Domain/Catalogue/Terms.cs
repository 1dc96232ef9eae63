using System.Collections;
using System.Collections.Frozen;

namespace Recommender.Domain.Catalogue;

/// <summary>An ordered list of terms that also knows each term's position.</summary>
/// <typeparam name="T">Kind of term.</typeparam>
public sealed class Terms<T> : IReadOnlyList<T> where T : Term
{
    private readonly T[] items;
    private readonly FrozenDictionary<string, int> positions;
    private readonly string[] inSentence;

    /// <param name="items">In the order in which they are shown.</param>
    /// <exception cref="ArgumentException">Two terms share an id.</exception>
    public Terms(IEnumerable<T> items)
    {
        this.items = [.. items];
        if (this.items.GroupBy(t => t.Id, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"\"{twice.Key}\" stands twice; ids are unique.", nameof(items));
        }

        inSentence = [.. this.items.Select(term => term.Label.ToLowerInvariant())];
        positions = this.items.Select((term, i) => KeyValuePair.Create(term.Id, i)).ToFrozenDictionary(StringComparer.Ordinal);
    }

    /// <inheritdoc/>
    public int Count => items.Length;

    /// <inheritdoc/>
    public T this[int index] => items[index];

    /// <summary>The term with this id, or null.</summary>
    public T? Find(string id) => positions.TryGetValue(id, out var i) ? items[i] : null;

    /// <summary>Position of the id, or -1.</summary>
    public int IndexOf(string id) => positions.TryGetValue(id, out var i) ? i : -1;

    /// <summary>Label of the term at a position as it stands within a sentence.</summary>
    public string InSentence(int position) => inSentence[position];

    /// <summary>Label of a known term as it stands within a sentence.</summary>
    public string InSentence(string id) => inSentence[positions[id]];

    /// <summary>Whether the id is known.</summary>
    public bool Has(string id) => positions.ContainsKey(id);

    /// <summary>Bits set at the positions of the ids; unknown ids set none. For lists of at most 64 terms.</summary>
    public ulong Mask(IEnumerable<string> ids)
    {
        ulong mask = 0;
        foreach (var id in ids)
        {
            if (positions.TryGetValue(id, out var i))
            {
                mask |= 1UL << i;
            }
        }

        return mask;
    }

    /// <inheritdoc/>
    public IEnumerator<T> GetEnumerator() => ((IEnumerable<T>)items).GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => items.GetEnumerator();
}
