using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Tests.Decisions;

// The test assembly is a program too, so that a test can kill it: it appends to a store for ever
// under ids that start with a prefix, and says each id once its append was answered.
using var store = args[0] == "sqlite" ? (Store)SqliteStore.Open(args[1]) : PostgresStore.Open(args[1]);
await using var log = new DecisionLog(store, new Packings(store));
await Task.WhenAll(Enumerable.Range(0, 4).Select(task => Task.Run(async () =>
{
    for (var i = 0; ; i++)
    {
        var id = $"{args[2]}/{task}/{i}";
        await log.Append([RecordBuilder.Record(id)], RecordBuilder.Claim(id));
        Console.WriteLine(id);
    }
})));
