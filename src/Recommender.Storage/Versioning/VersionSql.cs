namespace Recommender.Storage.Versioning;

/// <summary>SQL of versions.</summary>
internal static class VersionSql
{
    public const string Insert = """
        INSERT INTO knowledge_versions (organisation, kind, version, based_on, created_at, content)
        VALUES (@organisation, @kind, @version, @basedOn, @createdAt, @content)
        ON CONFLICT (organisation, kind, version) DO NOTHING
        """;

    public const string Content = """
        SELECT content
        FROM knowledge_versions
        WHERE organisation IN (@organisation, @everybody) AND kind = @kind AND version = @version
        ORDER BY organisation
        LIMIT 1
        """;

    public const string Count = """
        SELECT COUNT(*)
        FROM knowledge_versions
        WHERE organisation IN (@organisation, @everybody) AND kind = @kind AND version = @version
        """;

    public const string List = """
        SELECT v.organisation AS Organisation, v.version AS Version, v.based_on AS BasedOn, v.created_at AS CreatedAt,
               (SELECT COUNT(*)
                FROM knowledge_publications p
                WHERE p.organisation = @organisation AND CASE @kind WHEN 'catalogue' THEN p.catalogue_version ELSE p.rules_version END = v.version) AS Published
        FROM knowledge_versions v
        WHERE v.organisation IN (@organisation, @everybody) AND v.kind = @kind
        ORDER BY v.created_at DESC, v.version
        """;

    // Only what can be read again is put in force: either text may have been taken away since the pair was made.
    public const string Publish = """
        INSERT INTO knowledge_publications (organisation, catalogue_version, rules_version, published_at)
        SELECT @organisation, @catalogue, @rules, @publishedAt
        WHERE COALESCE((SELECT MAX(position) FROM knowledge_publications WHERE organisation = @organisation), 0) = @after
          AND EXISTS (SELECT 1 FROM knowledge_versions c WHERE c.organisation IN (@organisation, @everybody) AND c.kind = 'catalogue' AND c.version = @catalogue)
          AND EXISTS (SELECT 1 FROM knowledge_versions r WHERE r.organisation IN (@organisation, @everybody) AND r.kind = 'rules' AND r.version = @rules)
        RETURNING position
        """;

    /// <summary>Newest positions of so many organisations, @o0 and on. A list is spelled out: what a list parameter becomes hangs on the engine.</summary>
    public static string Newest(int organisations) => $"""
        SELECT organisation AS Organisation, MAX(position) AS Position
        FROM knowledge_publications
        WHERE organisation IN ({string.Join(", ", Enumerable.Range(0, organisations).Select(i => $"@o{i}"))})
        GROUP BY organisation
        ORDER BY organisation
        """;

    public const string InForce = """
        SELECT position AS Position, catalogue_version AS Catalogue, rules_version AS Rules
        FROM knowledge_publications
        WHERE organisation = @organisation
        ORDER BY position DESC
        LIMIT 1
        """;

    public const string Discard = """
        DELETE FROM knowledge_versions
        WHERE organisation = @organisation AND kind = @kind AND version = @version
          AND NOT EXISTS (
              SELECT 1
              FROM knowledge_publications p
              WHERE p.organisation = @organisation AND CASE @kind WHEN 'catalogue' THEN p.catalogue_version ELSE p.rules_version END = @version)
        """;
}
