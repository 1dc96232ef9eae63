using System.Collections.Concurrent;
using Recommender.Domain.Knowledge;
using Recommender.Storage.Preferences;

namespace Recommender.Answers.Learned;

/// <summary>
/// What was learned and is in force, held in memory. Another program may publish, so it is read again after <see cref="Fresh"/>: so long two replicas may answer on different numbers, each answer wholly on one version, which it names.
/// </summary>
/// <param name="store">Keeps learned numbers.</param>
/// <param name="clock">Gives the time.</param>
public sealed class PreferencesInForce(PreferenceStore store, TimeProvider clock)
{
    /// <summary>Versions held in memory, beyond which they are read again: replays go over many.</summary>
    private const int MostHeld = 500;

    /// <summary>How long what was read is taken for true: within this time every program of the store answers on what was put in force through another.</summary>
    public static readonly TimeSpan Fresh = TimeSpan.FromSeconds(5);

    private readonly ConcurrentDictionary<string, (DateTimeOffset ReadAt, IReadOnlyDictionary<string, Preference> ByCoach)> inForce = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<(string, string), Preference> held = new();
    private readonly Lock forgetting = new();
    private long forgotten;

    /// <summary>That of a coach, else of the organisation, else null.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">A stored text is damaged.</exception>
    public async Task<Preference?> Of(string organisation, string? coach)
    {
        var now = clock.GetUtcNow();
        if (!inForce.TryGetValue(organisation, out var read) || now - read.ReadAt >= Fresh || now < read.ReadAt)
        {
            var before = Interlocked.Read(ref forgotten);
            read = (now, await Read(organisation).ConfigureAwait(false));

            // Read before something was put in force here, it may be what was in force before: it serves this request, which began before too, and no later one.
            lock (forgetting)
            {
                if (before == forgotten)
                {
                    inForce[organisation] = read;
                }
            }
        }

        return coach is not null && read.ByCoach.TryGetValue(coach, out var own) ? own : read.ByCoach.GetValueOrDefault(PreferenceStore.Everybody);
    }

    /// <summary>A version, in force or not; null when the organisation has none of it.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    /// <exception cref="InvalidDataException">The stored text is damaged.</exception>
    public async Task<Preference?> Version(string organisation, string version)
    {
        if (held.TryGetValue((organisation, version), out var known))
        {
            return known;
        }

        if (await store.Content(organisation, version).ConfigureAwait(false) is not { } content)
        {
            return null;
        }

        if (held.Count >= MostHeld)
        {
            held.Clear();
        }

        return held.GetOrAdd((organisation, version), PreferenceText.Read(content, version));
    }

    /// <summary>Has what is in force read again with the next request.</summary>
    public void Forget(string organisation)
    {
        lock (forgetting)
        {
            Interlocked.Increment(ref forgotten);
            inForce.TryRemove(organisation, out _);
        }
    }

    private async Task<IReadOnlyDictionary<string, Preference>> Read(string organisation)
    {
        var byCoach = new Dictionary<string, Preference>(StringComparer.Ordinal);
        foreach (var (coach, version) in await store.InForce(organisation).ConfigureAwait(false))
        {
            if (await Version(organisation, version).ConfigureAwait(false) is { } preference)
            {
                byCoach[coach] = preference;
            }
        }

        return byCoach;
    }
}
