using System.Text;
using Dapper;

namespace Recommender.Storage.Decisions;

/// <summary>SQL that reads decisions.</summary>
internal static class DecisionReadSql
{
    private const string Listed = """
        d.decision_id AS DecisionId, d.kind AS Kind, d.created_at AS CreatedAt, d.athlete_ref AS AthleteRef, d.coach AS Coach, d.status AS Status, d.top AS Top,
               d.engine AS Engine, d.catalogue_version AS CatalogueVersion, d.rules_version AS RulesVersion, d.preference_version AS PreferenceVersion, d.sequence AS Sequence
        """;

    private const string Whole = Listed + """
        , d.organisation AS Organisation, d.personal AS Personal, d.personal_salt AS PersonalSalt, d.personal_hash AS PersonalHash,
               d.request AS Request, d.answer AS Answer, d.facts AS Facts, d.previous_hash AS PreviousHash, d.hash AS Hash
        """;

    public const string One = $"""
        SELECT {Whole}
        FROM decisions d
        WHERE d.organisation = @organisation AND d.decision_id = @decisionId
        ORDER BY d.sequence
        LIMIT 1
        """;

    /// <summary>A stretch of a chain, whatever the rows hold.</summary>
    public const string Stretch = $"""
        SELECT {Whole}
        FROM decisions d
        WHERE d.organisation = @organisation AND d.sequence > @after
        ORDER BY d.sequence
        LIMIT @limit
        """;

    /// <summary>Exercises that the search index holds for a stretch of a chain.</summary>
    public const string IndexedExercises = """
        SELECT sequence AS Sequence, exercise AS Exercise, created_at AS CreatedAt
        FROM decision_exercises
        WHERE organisation = @organisation AND sequence > @after AND sequence <= @last
        ORDER BY sequence, exercise
        """;

    public const string Organisations = """
        SELECT organisation
        FROM decisions
        UNION
        SELECT organisation
        FROM chain_heads
        ORDER BY organisation
        """;

    public const string Claims = """
        SELECT key AS Key, response AS Response, created_at AS CreatedAt
        FROM idempotency
        WHERE organisation = @organisation AND key > @after
        ORDER BY key
        LIMIT @limit
        """;

    /// <summary>A page of what a list shows, newest first.</summary>
    public static (string Sql, DynamicParameters Parameters) Page(string organisation, DecisionFilter filter, DecisionPlace? after, int limit) => Query(Listed, newestFirst: true, organisation, filter, after, limit);

    /// <summary>Whole rows, newest first.</summary>
    public static (string Sql, DynamicParameters Parameters) Newest(string organisation, DecisionPlace? after, int limit) => Query(Whole, newestFirst: true, organisation, DecisionFilter.All, after, limit);

    /// <summary>A stretch of whole rows, oldest first.</summary>
    public static (string Sql, DynamicParameters Parameters) Rows(string organisation, DecisionFilter filter, DecisionPlace? after, int limit) => Query(Whole, newestFirst: false, organisation, filter, after, limit);

    private static (string Sql, DynamicParameters Parameters) Query(string columns, bool newestFirst, string organisation, DecisionFilter filter, DecisionPlace? after, int limit)
    {
        var (where, parameters) = Where(organisation, filter);
        if (after is { } place)
        {
            where.Append(newestFirst ? " AND (d.created_at, d.sequence) < (@afterTime, @afterSequence)" : " AND (d.created_at, d.sequence) > (@afterTime, @afterSequence)");
            Add(parameters, place);
        }

        parameters.Add("limit", limit);
        var order = newestFirst ? "d.created_at DESC, d.sequence DESC" : "d.created_at, d.sequence";
        return ($"SELECT {columns}\n{From(filter)}\nWHERE {where}\nORDER BY {order}\nLIMIT @limit", parameters);
    }

    private static void Add(DynamicParameters parameters, DecisionPlace place)
    {
        parameters.Add("afterTime", place.CreatedAt.ToUnixTimeMilliseconds());
        parameters.Add("afterSequence", place.Sequence);
    }

    private static string From(DecisionFilter filter) => filter.Exercise is null
        ? "FROM decisions d"
        : "FROM decision_exercises x\nJOIN decisions d ON d.organisation = x.organisation AND d.sequence = x.sequence AND d.created_at = x.created_at";

    private static (StringBuilder Where, DynamicParameters Parameters) Where(string organisation, DecisionFilter filter)
    {
        var where = new StringBuilder("d.organisation = @organisation");
        var parameters = new DynamicParameters();
        parameters.Add("organisation", organisation);
        And("x.organisation = @organisation AND x.exercise = @exercise", "exercise", filter.Exercise);
        And("d.athlete_ref = @athlete", "athlete", filter.Athlete);
        And("d.coach = @coach", "coach", filter.Coach);
        And("d.kind = @kind", "kind", filter.Kind);
        And("d.status = @status", "status", filter.Status);
        And("(d.catalogue_version = @version OR d.rules_version = @version OR d.preference_version = @version)", "version", filter.Version);
        And("d.created_at >= @from", "from", filter.From?.ToUnixTimeMilliseconds());
        And("d.created_at < @to", "to", filter.To?.ToUnixTimeMilliseconds());
        return (where, parameters);

        void And(string condition, string name, object? value)
        {
            if (value is not null)
            {
                where.Append(" AND ").Append(condition);
                parameters.Add(name, value);
            }
        }
    }
}
