using System.Data.Common;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Recommender.Storage.Tests;

/// <summary>Another program at the same store: unpooled and without any code of the store.</summary>
public sealed partial class OutsideConnection : IDisposable
{
    private readonly DbConnection connection;

    /// <summary>At a SQLite file.</summary>
    public OutsideConnection(string file)
    {
        var sqlite = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        sqlite.CreateFunction("reworded", (byte[] text, string from, string to) => Encoding.UTF8.GetBytes(Encoding.UTF8.GetString(text).Replace(from, to, StringComparison.Ordinal)));
        connection = sqlite;
        connection.Open();
    }

    private OutsideConnection(NpgsqlConnection connection)
    {
        this.connection = connection;
        connection.Open();
        Run("""
            CREATE OR REPLACE FUNCTION pg_temp.zeroblob(length int) RETURNS bytea AS 'SELECT decode(repeat(''00'', length), ''hex'')' LANGUAGE sql;
            CREATE OR REPLACE FUNCTION pg_temp.reworded(bytea, text, text) RETURNS bytea AS 'SELECT convert_to(replace(convert_from($1, ''UTF8''), $2, $3), ''UTF8'')' LANGUAGE sql;
            """);
    }

    /// <summary>At a PostgreSQL database.</summary>
    public static OutsideConnection ToPostgres(string connectionString) => new(new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connectionString) { Pooling = false }.ConnectionString));

    public void Run(string sql)
    {
        using var command = Command(sql);
        command.ExecuteNonQuery();
    }

    /// <summary>The first cell; whole numbers come as long, whatever width the engine gives them.</summary>
    public T Value<T>(string sql) => Rows(sql)[0][0] switch
    {
        int whole when typeof(T) == typeof(long) => (T)(object)(long)whole,
        var cell => (T)cell!,
    };

    public IReadOnlyList<object?[]> Rows(string sql)
    {
        using var command = Command(sql);
        using var reader = command.ExecuteReader();
        var rows = new List<object?[]>();
        while (reader.Read())
        {
            var row = new object?[reader.FieldCount];
            reader.GetValues(row!);
            rows.Add(row);
        }

        return rows;
    }

    /// <summary>Keeps every log from writing until the returned thing is disposed; whoever wants to write waits.</summary>
    public IDisposable Lock()
    {
        Run(connection is SqliteConnection ? "BEGIN IMMEDIATE" : "BEGIN; LOCK TABLE chain_heads IN EXCLUSIVE MODE");
        return new Unlock(this);
    }

    public void Dispose() => connection.Dispose();

    /// <summary>What the tests write in SQLite's words, in those of the engine: bytes, and functions that only this connection has.</summary>
    private DbCommand Command(string sql)
    {
        var command = connection.CreateCommand();
        command.CommandText = connection is SqliteConnection ? sql : OwnFunction().Replace(HexBytes().Replace(sql, @"'\x$1'::bytea"), "pg_temp.$1(");
        return command;
    }

    [GeneratedRegex("\\bx'([0-9a-fA-F]*)'")]
    private static partial Regex HexBytes();

    [GeneratedRegex(@"(?<!\.)\b(zeroblob|reworded)\(")]
    private static partial Regex OwnFunction();

    private sealed class Unlock(OutsideConnection outside) : IDisposable
    {
        public void Dispose() => outside.Run("ROLLBACK");
    }
}
