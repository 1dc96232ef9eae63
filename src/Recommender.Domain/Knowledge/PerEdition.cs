using System.Runtime.CompilerServices;

namespace Recommender.Domain.Knowledge;

/// <summary>Something that hangs on an edition alone: made when first asked for, kept as long as the edition.</summary>
/// <typeparam name="T">What is kept; read by several threads at once.</typeparam>
/// <param name="make">Makes it; may run twice when two threads ask at once, and one of the two is kept.</param>
internal sealed class PerEdition<T>(Func<Edition, T> make) where T : class
{
    private readonly ConditionalWeakTable<Edition, T> kept = [];

    /// <summary>That of an edition.</summary>
    public T Of(Edition edition) => kept.TryGetValue(edition, out var made) ? made : kept.GetValue(edition, e => make(e));
}
