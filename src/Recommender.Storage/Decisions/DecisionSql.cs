namespace Recommender.Storage.Decisions;

/// <summary>SQL of the decision log.</summary>
internal static class DecisionSql
{
    public const string LastHash = """
        SELECT hash
        FROM decisions
        WHERE organisation = @organisation
        ORDER BY position DESC
        LIMIT 1
        """;

    public const string Insert = """
        INSERT INTO decisions
            (organisation, decision_id, kind, created_at, status, top, engine, catalogue_version, rules_version, preference_version,
             athlete_ref, personal, personal_salt, personal_hash, request, answer, content_hash, previous_hash, hash)
        VALUES
            (@Organisation, @DecisionId, @Kind, @CreatedAt, @Status, @Top, @Engine, @CatalogueVersion, @RulesVersion, @PreferenceVersion,
             @AthleteRef, @Personal, @PersonalSalt, @PersonalHash, @Request, @Answer, @ContentHash, @PreviousHash, @Hash)
        """;

    public const string Read = """
        SELECT organisation AS Organisation, decision_id AS DecisionId, kind AS Kind, created_at AS CreatedAt, status AS Status, top AS Top,
               engine AS Engine, catalogue_version AS CatalogueVersion, rules_version AS RulesVersion, preference_version AS PreferenceVersion,
               athlete_ref AS AthleteRef, personal AS Personal, personal_salt AS PersonalSalt, personal_hash AS PersonalHash,
               request AS Request, answer AS Answer, content_hash AS ContentHash, previous_hash AS PreviousHash, hash AS Hash
        FROM decisions
        WHERE organisation = @organisation AND decision_id = @decisionId
        ORDER BY position
        LIMIT 1
        """;

    // Some lapsed claims go with every new one, so that the table does not grow for ever and no caller waits for all of them.
    public const string Sweep = """
        DELETE FROM idempotency
        WHERE organisation = @Organisation
          AND key IN (
              SELECT key
              FROM idempotency
              WHERE organisation = @Organisation AND created_at < @NotBefore
              ORDER BY created_at
              LIMIT 20)
        """;

    // A lapsed claim gives way; a live one keeps its row, and the statement then changes nothing.
    public const string Claim = """
        INSERT INTO idempotency (organisation, key, body_hash, response, created_at)
        VALUES (@Organisation, @Key, @BodyHash, @Response, @CreatedAt)
        ON CONFLICT (organisation, key) DO UPDATE
        SET body_hash = excluded.body_hash, response = excluded.response, created_at = excluded.created_at
        WHERE idempotency.created_at < @NotBefore
        """;

    public const string ReadClaim = """
        SELECT body_hash AS BodyHash, response AS Response
        FROM idempotency
        WHERE organisation = @organisation AND key = @key AND created_at >= @notBefore
        ORDER BY key
        LIMIT 1
        """;
}
