using System.Collections.Concurrent;
using Recommender.Storage.Access;

namespace Recommender.Answers.Access;

/// <summary>Makes, lists, changes and ends keys, and says whom a key that was sent stands for.</summary>
/// <param name="store">Keeps keys.</param>
/// <param name="clock">Gives the time.</param>
public sealed class AccessKeys(AccessKeyStore store, TimeProvider clock)
{
    /// <summary>How long what the store said of a key is taken for true: within this time after a key was ended, every program on the store refuses it.</summary>
    public static readonly TimeSpan Remembered = TimeSpan.FromSeconds(2);

    /// <summary>Most keys of an organisation that have not been ended.</summary>
    public const int Most = 500;

    /// <summary>Longest time that a secret holds beside the one that took its place, minutes.</summary>
    public const int LongestOverlapMinutes = 7 * 24 * 60;

    /// <summary>Longest life of a key that has an end, days.</summary>
    public const int LongestLifeDays = 3650;

    /// <summary>Longest note.</summary>
    public const int LongestNote = 200;

    /// <summary>Longest name of an organisation.</summary>
    public const int LongestOrganisation = 60;

    /// <summary>Keys that are remembered. Only keys that exist are, and those that are being looked for, so nobody can fill this by guessing.</summary>
    private const int MostRemembered = 50_000;

    private readonly ConcurrentDictionary<string, Remembrance> remembered = new(StringComparer.Ordinal);
    private long askedIssued;
    private volatile bool issued;

    /// <summary>Whether a name can be that of an organisation.</summary>
    public static bool IsOrganisation(string? name) =>
        name is { Length: > 0 and <= LongestOrganisation } && name.All(c => c is '-' || char.IsAsciiDigit(c) || char.IsAsciiLetterLower(c)) && name[0] != '-' && name[^1] != '-';

    /// <summary>Makes a key.</summary>
    /// <param name="organisation">Whom it belongs to.</param>
    /// <param name="scopes">What it may ask; at least one.</param>
    /// <param name="note">What it is for, or null.</param>
    /// <param name="life">How long it can be used, or null.</param>
    /// <returns>The key, to be shown once, and what is kept; null when the organisation has as many as it may.</returns>
    /// <exception cref="ArgumentException">A value is out of its range.</exception>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">It could not be kept.</exception>
    public async Task<(KeySecret Secret, StoredKey Kept)?> Create(string organisation, Scopes scopes, string? note, TimeSpan? life)
    {
        if (!IsOrganisation(organisation) || scopes == Scopes.None || (scopes & ~Scopes.All) != 0 || note?.Length > LongestNote || life <= TimeSpan.Zero || life > TimeSpan.FromDays(LongestLifeDays))
        {
            throw new ArgumentException("Organisation, scopes, note or life is out of range.");
        }

        var now = Now();
        if ((await store.List(organisation).ConfigureAwait(false)).Count(k => k.RevokedAt is null) >= Most)
        {
            return null;
        }

        for (; ; )
        {
            var secret = KeySecret.Make();
            var kept = new StoredKey(secret.Id, organisation, string.Join(' ', ScopeWords.Of(scopes)), note, now, now + life, null, null, secret.Salted(), null, null);
            if (await store.Add(kept).ConfigureAwait(false))
            {
                return (secret, kept);
            }
        }
    }

    /// <summary>Keys of an organisation, newest first, ended ones too.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public Task<IReadOnlyList<StoredKey>> List(string organisation) => store.List(organisation);

    /// <summary>A key of an organisation, or null.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<StoredKey?> One(string organisation, string keyId) => await store.Read(keyId).ConfigureAwait(false) is { } key && key.Organisation == organisation ? key : null;

    /// <summary>Gives a key another secret; the one before holds for the overlap, or ends at once.</summary>
    /// <returns>The key with its new secret, to be shown once, and what is kept; null when the organisation has no usable key of this id.</returns>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">It could not be changed.</exception>
    public async Task<(KeySecret Secret, StoredKey Kept)?> Rotate(string organisation, string keyId, TimeSpan overlap)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(overlap.Ticks);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(overlap.TotalMinutes, LongestOverlapMinutes);
        var (secret, now) = (KeySecret.For(keyId), Now());
        if (!await store.Rotate(organisation, keyId, secret.Salted(), now, now + overlap).ConfigureAwait(false))
        {
            return null;
        }

        remembered.TryRemove(keyId, out _);
        return await One(organisation, keyId).ConfigureAwait(false) is { } kept ? (secret, kept) : null;
    }

    /// <summary>Ends a key for good.</summary>
    /// <returns>Whether the organisation had one of this id that had not been ended.</returns>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">It could not be ended.</exception>
    public async Task<bool> Revoke(string organisation, string keyId)
    {
        var ended = await store.Revoke(organisation, keyId, Now()).ConfigureAwait(false);
        remembered.TryRemove(keyId, out _);
        return ended;
    }

    /// <summary>Whom a key that was sent stands for; null when it is no key, unknown, ended, at its end, or its secret is another.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public ValueTask<Caller?> Check(KeySecret sent) => Check(sent, static () => true);

    /// <inheritdoc cref="Check(KeySecret)"/>
    /// <param name="sent">The key.</param>
    /// <param name="mayLook">
    /// Asked, once, before the store is read for a key of whose id this program knows nothing; where it says no, the key stands for nobody. Not asked for a key that was found before, nor by those who send one that is
    /// being looked for already.
    /// </param>
    public async ValueTask<Caller?> Check(KeySecret sent, Func<bool> mayLook)
    {
        if (await Find(sent.Id, mayLook).ConfigureAwait(false) is not { } known)
        {
            return null;
        }

        var now = Now();
        var fits = sent.Fits(known.Kept.Secret) | (known.Kept.Former is { } former && now < known.Kept.FormerUntil && sent.Fits(former));
        return fits && known.Kept.IsUsable(now) ? known.Caller : null;
    }

    /// <summary>Whom a sign-in still stands for: the key can be used, and its secret has not been changed since; null otherwise.</summary>
    /// <param name="keyId">Key that was signed in with.</param>
    /// <param name="mark">Mark of the secret at that time.</param>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async ValueTask<Caller?> Still(string keyId, string mark) =>
        await Find(keyId).ConfigureAwait(false) is { } known && known.Kept.IsUsable(Now()) && mark == MarkOf(known.Kept) ? known.Caller : null;

    /// <summary>A mark of the secret that a key has now; tells nothing of it.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<string?> Mark(string keyId) => await Find(keyId).ConfigureAwait(false) is { } known ? MarkOf(known.Kept) : null;

    /// <summary>Whether a key was ever made on this store. Once one was, this stays so.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async ValueTask<bool> AnyIssued()
    {
        if (issued)
        {
            return true;
        }

        var asked = Volatile.Read(ref askedIssued);
        if (asked != 0 && clock.GetElapsedTime(asked) < Remembered)
        {
            return false;
        }

        var any = await store.AnyIssued().ConfigureAwait(false);
        issued |= any;
        Volatile.Write(ref askedIssued, clock.GetTimestamp());
        return any;
    }

    /// <summary>Whether a key can be used now.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public Task<bool> AnyUsable() => store.AnyUsable(Now());

    // A salt is drawn anew with every secret and is no secret itself.
    private static string MarkOf(StoredKey key) => Convert.ToHexStringLower(key.Secret.Salt);

    private async ValueTask<KnownKey?> Find(string keyId, Func<bool>? mayLook = null)
    {
        if (remembered.TryGetValue(keyId, out var last) && clock.GetElapsedTime(last.At) < Remembered)
        {
            return await last.Read.ConfigureAwait(false);
        }

        if (last is null && mayLook?.Invoke() == false)
        {
            return null;
        }

        if (last is null && remembered.Count >= MostRemembered)
        {
            remembered.Clear();
        }

        // One of those who find it missing or too old reads it; the others wait for the same reading.
        var next = new Remembrance(clock.GetTimestamp(), new Lazy<Task<KnownKey?>>(() => ReadKnown(keyId)));
        var mine = last is null ? remembered.GetOrAdd(keyId, next) : remembered.TryUpdate(keyId, next, last) ? next : remembered.GetValueOrDefault(keyId, next);
        try
        {
            var read = await mine.Read.ConfigureAwait(false);
            if (read is null)
            {
                remembered.TryRemove(KeyValuePair.Create(keyId, mine));
            }

            return read;
        }
        catch
        {
            // A key that was known before stays so while the store is away, though what is known of it is too old: it is read again, and nobody has to allow that.
            if (last is null || !remembered.TryUpdate(keyId, last, mine))
            {
                remembered.TryRemove(KeyValuePair.Create(keyId, mine));
            }

            throw;
        }
    }

    private async Task<KnownKey?> ReadKnown(string keyId) =>
        await store.Read(keyId).ConfigureAwait(false) is { } kept ? new KnownKey(kept, new Caller(kept.Organisation, ScopeWords.Read(kept.Scopes.Split(' ')), kept.KeyId)) : null;

    /// <summary>Now, in whole milliseconds, as the store keeps it.</summary>
    private DateTimeOffset Now() => DateTimeOffset.FromUnixTimeMilliseconds(clock.GetUtcNow().ToUnixTimeMilliseconds());

    private sealed record KnownKey(StoredKey Kept, Caller Caller);

    private sealed class Remembrance(long at, Lazy<Task<KnownKey?>> read)
    {
        public long At => at;

        public Task<KnownKey?> Read => read.Value;
    }
}
