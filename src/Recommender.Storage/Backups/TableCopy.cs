using System.Data;
using System.Data.Common;

namespace Recommender.Storage.Backups;

/// <summary>Copies the rows of every table that two stores have in common, whatever their engines.</summary>
internal static class TableCopy
{
    /// <summary>What sign-ins are protected with is in no copy: a restored service makes its own.</summary>
    private const string ProtectionKeys = "protection_keys";

    /// <summary>Copies all rows.</summary>
    /// <param name="source">Store that is read.</param>
    /// <param name="from">Connection to it.</param>
    /// <param name="snapshot">Shows one moment of it.</param>
    /// <param name="target">Store that is written; its tables are empty.</param>
    /// <param name="to">Connection to it.</param>
    /// <param name="transaction">Writes all or nothing.</param>
    public static void Run(Store source, DbConnection from, DbTransaction snapshot, Store target, DbConnection to, DbTransaction transaction)
    {
        var there = source.Tables(from).ToDictionary(t => t.Name, StringComparer.Ordinal);
        foreach (var table in target.Tables(to).Where(t => t.Name != ProtectionKeys))
        {
            if (there.TryGetValue(table.Name, out var same))
            {
                // A column that only one engine has numbers its rows in the order in which they come.
                same = same with { Columns = [.. table.Columns.Intersect(same.Columns, StringComparer.Ordinal)] };
                target.InsertAll(to, transaction, same, Rows(from, snapshot, same));
            }
        }
    }

    /// <summary>Tables of a store that hold anything.</summary>
    public static IReadOnlyList<string> WithRows(Store store, DbConnection connection, DbTransaction transaction) => [.. store.Tables(connection).Select(t => t.Name).Where(n => n != ProtectionKeys).Where(name =>
    {
        using var command = Command(connection, transaction, $"SELECT 1 FROM {name} LIMIT 1");
        return command.ExecuteScalar() is not null;
    })];

    private static IEnumerable<object[]> Rows(DbConnection from, DbTransaction snapshot, StoredTable table)
    {
        using var command = Command(from, snapshot, $"SELECT {string.Join(", ", table.Columns)} FROM {table.Name} ORDER BY {string.Join(", ", table.Key)}");
        using var reader = command.ExecuteReader(CommandBehavior.SingleResult);
        while (reader.Read())
        {
            var row = new object[reader.FieldCount];
            reader.GetValues(row);
            yield return row;
        }
    }

    private static DbCommand Command(DbConnection connection, DbTransaction transaction, string sql)
    {
        var command = connection.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        command.CommandTimeout = 0;
        return command;
    }
}
