using Recommender.Domain.Knowledge;

namespace Recommender.Answers;

/// <summary>An edition in memory, shared by all organisations that are on it, until it makes room for one that is asked for more.</summary>
/// <param name="edition">The edition.</param>
public sealed class HeldEdition(Edition edition)
{
    /// <summary>Milliseconds within which another use is not noted: on a busy service every note would be a write that all cores wait for.</summary>
    private const long Grain = 1000;

    private volatile Edition? edition = edition;
    private long lastUsed = Environment.TickCount64;

    /// <summary>When it was last used, in milliseconds of the machine's running time.</summary>
    internal long LastUsed => Volatile.Read(ref lastUsed);

    /// <summary>The edition; null once it has made room.</summary>
    public Edition? Use()
    {
        var now = Environment.TickCount64;
        if (now - Volatile.Read(ref lastUsed) > Grain)
        {
            Volatile.Write(ref lastUsed, now);
        }

        return edition;
    }

    /// <summary>Makes room. Whoever took the edition before goes on with it.</summary>
    internal void Drop() => edition = null;
}
