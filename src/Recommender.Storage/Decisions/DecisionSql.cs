namespace Recommender.Storage.Decisions;

/// <summary>SQL that writes the decision log.</summary>
internal static class DecisionSql
{
    public const string Head = """
        SELECT organisation AS Organisation, sequence AS Sequence, hash AS Hash
        FROM chain_heads
        WHERE organisation = @organisation
        ORDER BY organisation
        """;

    public const string MoveHead = """
        INSERT INTO chain_heads (organisation, sequence, hash)
        VALUES (@Organisation, @Sequence, @Hash)
        ON CONFLICT (organisation) DO UPDATE
        SET sequence = excluded.sequence, hash = excluded.hash
        """;

    public const string Insert = """
        INSERT INTO decisions
            (organisation, sequence, decision_id, kind, created_at, status, top, engine, catalogue_version, rules_version, preference_version,
             athlete_ref, coach, personal, personal_salt, personal_hash, previous_hash, hash, request, answer, facts)
        VALUES
            (@Organisation, @Sequence, @DecisionId, @Kind, @CreatedAt, @Status, @Top, @Engine, @CatalogueVersion, @RulesVersion, @PreferenceVersion,
             @AthleteRef, @Coach, @Personal, @PersonalSalt, @PersonalHash, @PreviousHash, @Hash, @Request, @Answer, @Facts)
        """;

    public const string IsAppended = """
        SELECT COUNT(*)
        FROM decisions
        WHERE organisation = @Organisation AND decision_id = @DecisionId
        """;

    public const string IsErased = """
        SELECT COUNT(*)
        FROM decisions
        WHERE organisation = @Organisation AND decision_id = @DecisionId AND personal_salt IS NULL
        """;

    public const string InsertExercise = """
        INSERT INTO decision_exercises (organisation, exercise, created_at, sequence)
        VALUES (@Organisation, @Exercise, @CreatedAt, @Sequence)
        ON CONFLICT DO NOTHING
        """;

    public const string EraseDecisions = """
        UPDATE decisions
        SET personal = NULL, personal_salt = NULL, athlete_ref = NULL, coach = NULL
        WHERE organisation = @organisation AND athlete_ref = @athleteRef
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
        INSERT INTO idempotency (organisation, key, body_hash, response, status, created_at)
        VALUES (@Organisation, @Key, @BodyHash, @Response, @Status, @CreatedAt)
        ON CONFLICT (organisation, key) DO UPDATE
        SET body_hash = excluded.body_hash, response = excluded.response, status = excluded.status, created_at = excluded.created_at
        WHERE idempotency.created_at < @NotBefore
        """;

    public const string ForgetClaimAthletes = """
        DELETE FROM idempotency_athletes
        WHERE organisation = @Organisation AND key = @Key
        """;

    public const string ClaimAthlete = """
        INSERT INTO idempotency_athletes (organisation, athlete_ref, key)
        VALUES (@Organisation, @AthleteRef, @Key)
        """;

    // Their rows of athletes go with them.
    public const string EraseClaims = """
        DELETE FROM idempotency
        WHERE organisation = @organisation
          AND key IN (
              SELECT key
              FROM idempotency_athletes
              WHERE organisation = @organisation AND athlete_ref = @athleteRef)
        """;

    public const string ReadClaim = """
        SELECT body_hash AS BodyHash, response AS Response, status AS Status
        FROM idempotency
        WHERE organisation = @organisation AND key = @key AND created_at >= @notBefore
        ORDER BY key
        LIMIT 1
        """;
}
