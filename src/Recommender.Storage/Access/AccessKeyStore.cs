using Dapper;

namespace Recommender.Storage.Access;

/// <summary>Keeps access keys.</summary>
/// <param name="store">The open store.</param>
public sealed class AccessKeyStore(Store store)
{
    /// <summary>Keeps a new key.</summary>
    /// <returns>False when there is one of this id already.</returns>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be kept.</exception>
    public async Task<bool> Add(StoredKey key) =>
        await store.Use(c => c.ExecuteAsync(AccessKeySql.Insert, new
        {
            keyId = key.KeyId,
            organisation = key.Organisation,
            scopes = key.Scopes,
            note = key.Note,
            createdAt = key.CreatedAt.ToUnixTimeMilliseconds(),
            expiresAt = key.ExpiresAt?.ToUnixTimeMilliseconds(),
            salt = key.Secret.Salt,
            hash = key.Secret.Hash,
        })).ConfigureAwait(false) == 1;

    /// <summary>The key of an id, of whichever organisation; null when there is none.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<StoredKey?> Read(string keyId) =>
        (await store.Use(c => c.QuerySingleOrDefaultAsync<KeyRow>(AccessKeySql.One, new { keyId })).ConfigureAwait(false))?.Key();

    /// <summary>All keys of an organisation, newest first, ended ones too.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<StoredKey>> List(string organisation) =>
        [.. (await store.Use(c => c.QueryAsync<KeyRow>(AccessKeySql.OfOrganisation, new { organisation })).ConfigureAwait(false)).Select(r => r.Key())];

    /// <summary>All keys of the store by organisation, newest first.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<StoredKey>> ListAll() =>
        [.. (await store.Use(c => c.QueryAsync<KeyRow>(AccessKeySql.All)).ConfigureAwait(false)).Select(r => r.Key())];

    /// <summary>Gives a usable key another secret.</summary>
    /// <param name="organisation">Whose key.</param>
    /// <param name="keyId">Which.</param>
    /// <param name="secret">The new one.</param>
    /// <param name="now">When.</param>
    /// <param name="formerUntil">Until when the one before holds too.</param>
    /// <returns>False when the organisation has no usable key of this id.</returns>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be changed.</exception>
    public async Task<bool> Rotate(string organisation, string keyId, SaltedHash secret, DateTimeOffset now, DateTimeOffset formerUntil) =>
        await store.Use(c => c.ExecuteAsync(AccessKeySql.Rotate,
            new { organisation, keyId, salt = secret.Salt, hash = secret.Hash, now = now.ToUnixTimeMilliseconds(), formerUntil = formerUntil.ToUnixTimeMilliseconds() })).ConfigureAwait(false) == 1;

    /// <summary>Ends a key.</summary>
    /// <returns>False when the organisation has none of this id that has not been ended.</returns>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be ended.</exception>
    public async Task<bool> Revoke(string organisation, string keyId, DateTimeOffset now) =>
        await store.Use(c => c.ExecuteAsync(AccessKeySql.Revoke, new { organisation, keyId, now = now.ToUnixTimeMilliseconds() })).ConfigureAwait(false) == 1;

    /// <summary>Whether a key was ever made on this store, ended ones counted.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<bool> AnyIssued() => await store.Use(c => c.ExecuteScalarAsync<long>(AccessKeySql.Issued)).ConfigureAwait(false) > 0;

    /// <summary>Whether a key can be used now.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<bool> AnyUsable(DateTimeOffset now) =>
        await store.Use(c => c.ExecuteScalarAsync<long>(AccessKeySql.Usable, new { now = now.ToUnixTimeMilliseconds() })).ConfigureAwait(false) > 0;

    private sealed class KeyRow
    {
        public string KeyId { get; init; } = "";

        public string Organisation { get; init; } = "";

        public string Scopes { get; init; } = "";

        public string? Note { get; init; }

        public long CreatedAt { get; init; }

        public long? ExpiresAt { get; init; }

        public long? RotatedAt { get; init; }

        public long? RevokedAt { get; init; }

        public byte[] Salt { get; init; } = [];

        public byte[] Hash { get; init; } = [];

        public byte[]? FormerSalt { get; init; }

        public byte[]? FormerHash { get; init; }

        public long? FormerUntil { get; init; }

        public StoredKey Key() => new(KeyId, Organisation, Scopes, Note, DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt), Time(ExpiresAt), Time(RotatedAt), Time(RevokedAt),
            new SaltedHash(Salt, Hash), FormerSalt is not null && FormerHash is not null ? new SaltedHash(FormerSalt, FormerHash) : null, Time(FormerUntil));

        private static DateTimeOffset? Time(long? milliseconds) => milliseconds is { } ms ? DateTimeOffset.FromUnixTimeMilliseconds(ms) : null;
    }
}
