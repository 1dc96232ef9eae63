namespace Recommender.Storage.Access;

/// <summary>An access key as it is kept: everything but its secret.</summary>
/// <param name="KeyId">Id; no secret.</param>
/// <param name="Organisation">Whom it belongs to.</param>
/// <param name="Scopes">Words of what it may ask, parted by blanks.</param>
/// <param name="Note">What it is for, or null.</param>
/// <param name="CreatedAt">Since when.</param>
/// <param name="ExpiresAt">When it ends by itself, or null.</param>
/// <param name="RotatedAt">When its secret was last changed, or null.</param>
/// <param name="RevokedAt">When it was ended, or null.</param>
/// <param name="Secret">Salted hash of the secret.</param>
/// <param name="Former">Salted hash of the secret before the last rotation, or null.</param>
/// <param name="FormerUntil">Until when that one holds too.</param>
public sealed record StoredKey(string KeyId, string Organisation, string Scopes, string? Note, DateTimeOffset CreatedAt, DateTimeOffset? ExpiresAt, DateTimeOffset? RotatedAt, DateTimeOffset? RevokedAt,
    SaltedHash Secret, SaltedHash? Former, DateTimeOffset? FormerUntil)
{
    /// <summary>Whether it is neither ended nor at its end.</summary>
    public bool IsUsable(DateTimeOffset now) => RevokedAt is null && !(ExpiresAt <= now);
}

/// <summary>A hash and what was mixed into it.</summary>
/// <param name="Salt">16 random bytes.</param>
/// <param name="Hash">32 bytes.</param>
public sealed record SaltedHash(byte[] Salt, byte[] Hash);
