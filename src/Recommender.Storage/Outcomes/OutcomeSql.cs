namespace Recommender.Storage.Outcomes;

/// <summary>SQL of outcomes.</summary>
internal static class OutcomeSql
{
    private const string Columns = """
        o.decision_id AS DecisionId, o.exercise AS Exercise, o.entry AS Entry, o.created_at AS CreatedAt, o.verdict AS Verdict, o.athlete_ref AS AthleteRef, o.coach AS Coach,
               o.report AS Report, o.facts AS Facts, o.pained AS Pained, o.erased AS Erased
        """;

    private const string IsLast = """
        NOT EXISTS (
              SELECT 1
              FROM outcomes later
              WHERE later.organisation = o.organisation AND later.decision_id = o.decision_id AND later.exercise = o.exercise AND later.entry > o.entry)
        """;

    public const string Last = $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND o.decision_id = @decisionId AND o.exercise = @exercise
        ORDER BY o.entry DESC
        LIMIT 1
        """;

    public const string OfDecision = $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND o.decision_id = @decisionId
        ORDER BY o.created_at, o.exercise, o.entry
        """;

    /// <summary>All about so many decisions, @d0 and on.</summary>
    public static string OfDecisions(int decisions) => $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND o.decision_id IN ({string.Join(", ", Enumerable.Range(0, decisions).Select(i => $"@d{i}"))})
        ORDER BY o.decision_id, o.created_at, o.exercise, o.entry
        """;

    public const string Insert = """
        INSERT INTO outcomes (organisation, decision_id, exercise, entry, created_at, verdict, athlete_ref, coach, report, facts, pained, erased)
        VALUES (@Organisation, @DecisionId, @Exercise, @Entry, @CreatedAt, @Verdict, @AthleteRef, @Coach, @Report, @Facts, @Pained, 0)
        """;

    /// <summary>What hurt an athlete lately, by the last report about each pick.</summary>
    public const string Pained = $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND o.athlete_ref = @athleteRef AND o.pained = 1 AND o.created_at >= @since AND {IsLast}
        ORDER BY o.created_at, o.decision_id, o.exercise
        """;

    /// <summary>Everything that counts, decision after decision; ids of decisions ascend with time.</summary>
    public const string All = $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND {IsLast}
        ORDER BY o.decision_id, o.exercise
        """;

    public const string Page = $"""
        SELECT {Columns}
        FROM outcomes o
        WHERE o.organisation = @organisation AND (o.decision_id, o.exercise) > (@decisionId, @exercise) AND {IsLast}
        ORDER BY o.decision_id, o.exercise
        LIMIT @limit
        """;

    public const string Organisations = """
        SELECT DISTINCT organisation
        FROM outcomes
        ORDER BY organisation
        """;

    public const string OfAthlete = """
        SELECT decision_id AS DecisionId, exercise AS Exercise, entry AS Entry, report AS Report, facts AS Facts
        FROM outcomes
        WHERE organisation = @organisation AND athlete_ref = @athleteRef
        ORDER BY decision_id, exercise, entry
        """;

    // What the choice was stays; work, pain, effort, note and who it was about go.
    public const string Erase = """
        UPDATE outcomes
        SET athlete_ref = NULL, coach = NULL, report = @report, facts = @facts, pained = 0, erased = 1
        WHERE organisation = @organisation AND decision_id = @decisionId AND exercise = @exercise AND entry = @entry
        """;
}
