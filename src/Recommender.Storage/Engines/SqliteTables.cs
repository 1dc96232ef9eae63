using System.Globalization;
using Dapper;
using Microsoft.Data.Sqlite;
using Recommender.Storage.Backups;

namespace Recommender.Storage.Engines;

/// <summary>The tables of a SQLite store, read and filled as a whole.</summary>
internal static class SqliteTables
{
    // In the order in which they were made: a table comes after those that it refers to.
    private const string Columns = """
        SELECT m.name AS Name, c.name AS Column, c.pk AS KeyPlace
        FROM sqlite_master m
        JOIN pragma_table_info(m.name) c
        WHERE m.type = 'table' AND m.name NOT LIKE 'sqlite%' AND m.name <> 'SchemaVersions'
        ORDER BY m.rowid, c.cid
        """;

    /// <summary>All tables, each after those that it refers to.</summary>
    public static IReadOnlyList<StoredTable> Of(SqliteConnection connection) =>
    [
        .. connection.Query<ColumnRow>(Columns).GroupBy(c => c.Name)
            .Select(t => new StoredTable(t.Key, [.. t.Select(c => c.Column)], [.. t.Where(c => c.KeyPlace > 0).OrderBy(c => c.KeyPlace).Select(c => c.Column)])),
    ];

    /// <summary>Fills a table.</summary>
    public static void Fill(SqliteConnection connection, SqliteTransaction transaction, StoredTable table, IEnumerable<object[]> rows)
    {
        using var command = connection.CreateCommand();
        command.Transaction = transaction;
        var parameters = table.Columns.Select((_, i) => command.Parameters.Add(new SqliteParameter { ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{i}") })).ToList();
        command.CommandText = $"INSERT INTO {table.Name} ({string.Join(", ", table.Columns)}) VALUES ({string.Join(", ", parameters.Select(p => p.ParameterName))})";
        foreach (var row in rows)
        {
            for (var i = 0; i < row.Length; i++)
            {
                parameters[i].Value = row[i];
            }

            command.ExecuteNonQuery();
        }
    }

    private sealed class ColumnRow
    {
        public string Name { get; init; } = "";

        public string Column { get; init; } = "";

        public long KeyPlace { get; init; }
    }
}
