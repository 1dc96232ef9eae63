using System.Globalization;

namespace Recommender.Storage.Engines;

/// <summary>
/// Which migration is for which engine. NNNN_name.sql is for both; where NNNN_name.postgres.sql stands beside it, PostgreSQL takes that instead. A PostgreSQL
/// store begins with one script that makes what SQLite files came to step by step.
/// </summary>
internal static class MigrationScripts
{
    private const string Ending = ".sql";
    private const string PostgresEnding = ".postgres.sql";

    /// <summary>The last script whose result PostgreSQL's first one holds.</summary>
    private const int Beginning = 8;

    private static readonly HashSet<string> All = [.. typeof(MigrationScripts).Assembly.GetManifestResourceNames().Where(n => n.EndsWith(Ending, StringComparison.Ordinal))];

    public static bool IsForSqlite(string name) => All.Contains(name) && !IsPostgresOnly(name);

    public static bool IsForPostgres(string name) =>
        All.Contains(name) && (IsPostgresOnly(name) || (Number(name) > Beginning && !All.Contains(name[..^Ending.Length] + PostgresEnding)));

    private static bool IsPostgresOnly(string name) => name.EndsWith(PostgresEnding, StringComparison.Ordinal);

    /// <summary>The number in a resource's name, whose folders are set apart by dots.</summary>
    private static int Number(string name)
    {
        var file = name[..^Ending.Length];
        return int.Parse(file.AsSpan(file.LastIndexOf('.') + 1, 4), NumberStyles.None, CultureInfo.InvariantCulture);
    }
}
