using Dapper;
using Npgsql;
using NpgsqlTypes;
using Recommender.Storage.Backups;

namespace Recommender.Storage.Engines;

/// <summary>The tables of a PostgreSQL store, read and filled as a whole.</summary>
internal static class PostgresTables
{
    private const string Columns = """
        SELECT c.table_name AS Name, c.column_name AS Column, c.data_type AS Type,
               COALESCE((SELECT k.ordinal_position
                         FROM information_schema.table_constraints t
                         JOIN information_schema.key_column_usage k USING (constraint_schema, constraint_name)
                         WHERE t.constraint_type = 'PRIMARY KEY' AND t.table_schema = c.table_schema AND t.table_name = c.table_name AND k.column_name = c.column_name), 0) AS KeyPlace,
               CASE WHEN c.is_identity = 'YES' THEN 1 ELSE 0 END AS Numbered
        FROM information_schema.columns c
        WHERE c.table_schema = current_schema() AND c.table_name <> 'schemaversions'
        ORDER BY c.table_name, c.ordinal_position
        """;

    private const string References = """
        SELECT c.conrelid::regclass::text AS Name, c.confrelid::regclass::text AS Needs
        FROM pg_constraint c
        WHERE c.contype = 'f' AND c.connamespace = current_schema()::regnamespace
        ORDER BY 1, 2
        """;

    /// <summary>All tables, each after those that it refers to.</summary>
    public static IReadOnlyList<StoredTable> Of(NpgsqlConnection connection)
    {
        var tables = connection.Query<ColumnRow>(Columns).GroupBy(c => c.Name)
            .Select(t => new StoredTable(t.Key, [.. t.Select(c => c.Column)], [.. t.Where(c => c.KeyPlace > 0).OrderBy(c => c.KeyPlace).Select(c => c.Column)])).ToList();
        var needs = connection.Query<Reference>(References).Where(r => r.Name != r.Needs).ToLookup(r => r.Name, r => r.Needs);
        var ordered = new List<StoredTable>();
        while (ordered.Count < tables.Count)
        {
            ordered.AddRange([.. tables.Except(ordered).Where(t => needs[t.Name].All(n => ordered.Any(o => o.Name == n)))]);
        }

        return ordered;
    }

    /// <summary>Fills a table in one stream.</summary>
    public static void Fill(NpgsqlConnection connection, StoredTable table, IEnumerable<object[]> rows)
    {
        var types = connection.Query<ColumnRow>(Columns).Where(c => c.Name == table.Name).ToDictionary(c => c.Column, c => TypeOf(c.Type), StringComparer.Ordinal);
        using var stream = connection.BeginBinaryImport($"COPY {table.Name} ({string.Join(", ", table.Columns)}) FROM STDIN (FORMAT BINARY)");
        stream.Timeout = TimeSpan.Zero;
        foreach (var row in rows)
        {
            stream.StartRow();
            for (var i = 0; i < row.Length; i++)
            {
                if (row[i] is DBNull)
                {
                    stream.WriteNull();
                }
                else
                {
                    stream.Write(row[i], types[table.Columns[i]]);
                }
            }
        }

        stream.Complete();
    }

    /// <summary>Lets numbered rows go on after the last that was filled in.</summary>
    public static void ContinueNumbers(NpgsqlConnection connection, NpgsqlTransaction transaction)
    {
        foreach (var column in connection.Query<ColumnRow>(Columns, transaction: transaction).Where(c => c.Numbered != 0))
        {
            connection.Execute($"SELECT setval(pg_get_serial_sequence('{column.Name}', '{column.Column}'), (SELECT COALESCE(MAX({column.Column}), 0) + 1 FROM {column.Name}), false)", transaction: transaction);
        }
    }

    private static NpgsqlDbType TypeOf(string type) => type switch
    {
        "bigint" => NpgsqlDbType.Bigint,
        "bytea" => NpgsqlDbType.Bytea,
        "text" => NpgsqlDbType.Text,
        "double precision" => NpgsqlDbType.Double,
        _ => throw new InvalidOperationException($"A column is {type}; a store has whole numbers, fractions, text and bytes."),
    };

    private sealed class ColumnRow
    {
        public string Name { get; init; } = "";

        public string Column { get; init; } = "";

        public string Type { get; init; } = "";

        public int KeyPlace { get; init; }

        public int Numbered { get; init; }
    }

    private sealed class Reference
    {
        public string Name { get; init; } = "";

        public string Needs { get; init; } = "";
    }
}
