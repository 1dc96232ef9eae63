using Recommender.Testing.Postgres;

namespace Recommender.Storage.Tests;

/// <summary>A database of its own for one PostgreSQL store, gone afterwards. The test is skipped where there is no server and none can be installed.</summary>
public sealed class StoreDatabase : StorePlace
{
    /// <summary>A database whose tables are made, to copy from: making them for every test would take most of its time.</summary>
    private static readonly Lazy<string> Template = new(() =>
    {
        var connectionString = PostgresServer.Shared.NewDatabase();
        PostgresStore.Open(connectionString).Dispose();
        return new Npgsql.NpgsqlConnectionStringBuilder(connectionString).Database!;
    });

    public StoreDatabase()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        ConnectionString = PostgresServer.Shared.NewDatabase(Template.Value);
    }

    public string ConnectionString { get; }

    public override IReadOnlyList<string> Arguments => ["postgres", ConnectionString];

    public override Store Open() => PostgresStore.Open(ConnectionString);

    public override OutsideConnection Outside() => OutsideConnection.ToPostgres(ConnectionString);

    /// <summary>Transactions that rows came from. Source: PostgreSQL documentation, 5.5 "System Columns" (xmin).</summary>
    public override int Commits(OutsideConnection outside) => (int)outside.Value<long>("SELECT COUNT(DISTINCT xmin::text) FROM decisions");

    public override void Dispose() => PostgresServer.Shared.Drop(ConnectionString);
}
