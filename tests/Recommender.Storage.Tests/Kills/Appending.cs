using Recommender.Storage.Decisions;
using Recommender.Storage.Tests.Decisions;

namespace Recommender.Storage.Tests.Kills;

/// <summary>The program that is killed: it appends to a store for ever, and says each id once its append was answered.</summary>
internal static class Appending
{
    private const int Callers = 8;

    /// <param name="engine">sqlite or postgres.</param>
    /// <param name="place">Folder or connection string.</param>
    /// <param name="prefix">What its ids begin with.</param>
    public static async Task<int> ForEver(string engine, string place, string prefix)
    {
        using var store = engine == "sqlite" ? (Store)SqliteStore.Open(place) : PostgresStore.Open(place);
        await using var log = new DecisionLog(store, new Packings(store));
        await Task.WhenAll(Enumerable.Range(0, Callers).Select(caller => Task.Run(async () =>
        {
            for (var i = 0; ; i++)
            {
                var id = $"{prefix}/{caller}/{i}";
                try
                {
                    // Every third append is two records under one key: it is there as a whole or not at all.
                    await log.Append(i % 3 == 0 ? [RecordBuilder.Record(id), RecordBuilder.Record(id + "b")] : [RecordBuilder.Record(id)], RecordBuilder.Claim(id, response: "{}"));
                    Console.WriteLine(id);
                }
                catch (StoreUnavailableException)
                {
                    await Task.Delay(20);
                }
            }
        })));
        return 0;
    }
}
