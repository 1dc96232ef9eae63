namespace Recommender.Storage.Access;

/// <summary>SQL of access keys.</summary>
internal static class AccessKeySql
{
    private const string Columns = """
        SELECT key_id AS KeyId, organisation AS Organisation, scopes AS Scopes, note AS Note, created_at AS CreatedAt, expires_at AS ExpiresAt, rotated_at AS RotatedAt,
               revoked_at AS RevokedAt, salt AS Salt, hash AS Hash, former_salt AS FormerSalt, former_hash AS FormerHash, former_until AS FormerUntil
        FROM access_keys

        """;

    public const string Insert = """
        INSERT INTO access_keys (key_id, organisation, scopes, note, created_at, expires_at, salt, hash)
        VALUES (@keyId, @organisation, @scopes, @note, @createdAt, @expiresAt, @salt, @hash)
        ON CONFLICT (key_id) DO NOTHING
        """;

    public const string One = Columns + """
        WHERE key_id = @keyId
        ORDER BY key_id
        LIMIT 1
        """;

    public const string OfOrganisation = Columns + """
        WHERE organisation = @organisation
        ORDER BY created_at DESC, key_id
        """;

    public const string All = Columns + """
        ORDER BY organisation, created_at DESC, key_id
        """;

    /// <summary>What was the secret becomes the former one, with its end; the one before that is gone.</summary>
    public const string Rotate = """
        UPDATE access_keys
        SET former_salt = salt, former_hash = hash, former_until = @formerUntil, salt = @salt, hash = @hash, rotated_at = @now
        WHERE organisation = @organisation AND key_id = @keyId AND revoked_at IS NULL AND (expires_at IS NULL OR expires_at > @now)
        """;

    public const string Revoke = """
        UPDATE access_keys
        SET revoked_at = @now
        WHERE organisation = @organisation AND key_id = @keyId AND revoked_at IS NULL
        """;

    public const string Issued = "SELECT COUNT(*) FROM access_keys";

    public const string Usable = "SELECT COUNT(*) FROM access_keys WHERE revoked_at IS NULL AND (expires_at IS NULL OR expires_at > @now)";
}
