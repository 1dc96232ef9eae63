using Recommender.Storage;
using Recommender.Storage.Decisions;
using Recommender.Storage.Tests.Decisions;

// The test assembly is a program too, so that a test can kill it: it appends to the store of a folder for ever
// under ids that start with a prefix, and says each id once its append was answered.
var store = SqliteStore.Open(args[0]);
await using var log = new DecisionLog(store, new Packings(store));
await Task.WhenAll(Enumerable.Range(0, 4).Select(task => Task.Run(async () =>
{
    for (var i = 0; ; i++)
    {
        var id = $"{args[1]}/{task}/{i}";
        await log.Append([RecordBuilder.Record(id)], RecordBuilder.Claim(id));
        Console.WriteLine(id);
    }
})));
