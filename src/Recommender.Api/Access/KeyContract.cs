using Recommender.Answers.Access;
using Recommender.Domain.Decisions;
using Recommender.Storage.Access;

namespace Recommender.Api.Access;

/// <summary>Keys of the caller's organisation.</summary>
/// <param name="Items">Keys, newest first.</param>
public sealed record KeyList(IReadOnlyList<KeyLine> Items);

/// <summary>A key, without its secret.</summary>
/// <param name="Id">Id; it stands in the key after the prefix and is no secret.</param>
/// <param name="Scopes">What it may ask.</param>
/// <param name="Note">What it is for, or null.</param>
/// <param name="State">usable, expired or revoked.</param>
/// <param name="CreatedAt">Since when.</param>
/// <param name="ExpiresAt">When it ends by itself, or null.</param>
/// <param name="RotatedAt">When its secret was last changed, or null.</param>
/// <param name="RevokedAt">When it was ended, or null.</param>
/// <param name="FormerUntil">Until when the secret before the last rotation holds too, or null.</param>
public sealed record KeyLine(string Id, IReadOnlyList<string> Scopes, string? Note, string State, string CreatedAt, string? ExpiresAt, string? RotatedAt, string? RevokedAt, string? FormerUntil)
{
    /// <summary>A key as it is now.</summary>
    public static KeyLine Of(StoredKey key, DateTimeOffset now) => new(key.KeyId, key.Scopes.Split(' '), key.Note, key.RevokedAt is not null ? "revoked" : key.IsUsable(now) ? "usable" : "expired",
        RecordHash.Moment(key.CreatedAt), Moment(key.ExpiresAt), Moment(key.RotatedAt), Moment(key.RevokedAt), key.FormerUntil > now ? Moment(key.FormerUntil) : null);

    private static string? Moment(DateTimeOffset? time) => time is { } at ? RecordHash.Moment(at) : null;
}

/// <summary>A key with its secret, which is shown this once.</summary>
/// <param name="Key">The key to send as Authorization: Bearer.</param>
/// <param name="About">What is kept of it.</param>
public sealed record NewKey(string Key, KeyLine About)
{
    /// <summary>A key that was just made or changed.</summary>
    public static NewKey Of((KeySecret Secret, StoredKey Kept) made, DateTimeOffset now) => new(made.Secret.Reveal(), KeyLine.Of(made.Kept, now));
}
