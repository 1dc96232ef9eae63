using System.Collections.Concurrent;
using System.Reflection;
using System.Text.RegularExpressions;
using Npgsql;
using NpgsqlTypes;

namespace Recommender.Storage.Engines;

/// <summary>One statement for many rows in one round trip, with the rows' properties as its parameters, as Dapper takes them.</summary>
internal static partial class PostgresBatch
{
    /// <summary>Rows that go together, so that neither side holds too much at once.</summary>
    private const int Together = 2000;

    private static readonly ConcurrentDictionary<(string Sql, Type Row), Column[]> Known = new();

    /// <summary>Runs the statement for each row, in order.</summary>
    public static void Execute<T>(NpgsqlConnection connection, NpgsqlTransaction transaction, string sql, IReadOnlyCollection<T> rows)
    {
        var columns = Known.GetOrAdd((sql, typeof(T)), key => Columns(key.Sql, key.Row));
        foreach (var some in rows.Chunk(Together))
        {
            using var batch = new NpgsqlBatch(connection, transaction);
            foreach (var row in some)
            {
                var command = new NpgsqlBatchCommand(sql);
                foreach (var column in columns)
                {
                    command.Parameters.Add(new NpgsqlParameter(column.Name, column.Type) { Value = column.Property.GetValue(row) ?? DBNull.Value });
                }

                batch.BatchCommands.Add(command);
            }

            batch.ExecuteNonQuery();
        }
    }

    private static Column[] Columns(string sql, Type row)
    {
        var names = Named().Matches(sql).Select(m => m.Groups[1].Value).ToHashSet(StringComparer.Ordinal);
        return [.. row.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => names.Contains(p.Name)).Select(p => new Column(p.Name, TypeOf(p.PropertyType), p))];
    }

    private static NpgsqlDbType TypeOf(Type type) =>
        type == typeof(string) ? NpgsqlDbType.Text
        : type == typeof(byte[]) ? NpgsqlDbType.Bytea
        : type == typeof(long) || type == typeof(int) ? NpgsqlDbType.Bigint
        : throw new ArgumentException($"Rows have no column of {type}.", nameof(type));

    [GeneratedRegex("@([A-Za-z]+)")]
    private static partial Regex Named();

    private sealed record Column(string Name, NpgsqlDbType Type, PropertyInfo Property);
}
