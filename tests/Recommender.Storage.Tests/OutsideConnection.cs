using Microsoft.Data.Sqlite;

namespace Recommender.Storage.Tests;

/// <summary>Another program at the same file: unpooled and without any code of the store.</summary>
public sealed class OutsideConnection : IDisposable
{
    private readonly SqliteConnection connection;

    public OutsideConnection(string file)
    {
        connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString());
        connection.Open();
    }

    public void Run(string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    public T Value<T>(string sql) => (T)Rows(sql)[0][0]!;

    public IReadOnlyList<object?[]> Rows(string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
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

    /// <summary>Takes the write lock until the returned thing is disposed; whoever wants to write waits.</summary>
    public IDisposable Lock()
    {
        Run("BEGIN IMMEDIATE");
        return new Unlock(this);
    }

    public void Dispose() => connection.Dispose();

    private sealed class Unlock(OutsideConnection outside) : IDisposable
    {
        public void Dispose() => outside.Run("ROLLBACK");
    }
}
