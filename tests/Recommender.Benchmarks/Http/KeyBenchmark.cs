using Recommender.Answers.Access;
using Recommender.Storage;
using Recommender.Storage.Access;

namespace Recommender.Benchmarks.Http;

/// <summary>What a key costs a request: the service open on loopback beside the service asked with a key.</summary>
internal static class KeyBenchmark
{
    public static async Task Run()
    {
        var folder = Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}");
        var key = await Key(folder);
        using var open = ServerProcess.Service();
        using var keyed = ServerProcess.Service(folder, ("Limits__PerSecond", "1000000"), ("Limits__Burst", "1000000"));
        await InTurns.Compare(new("without a key", open), new("with a key", keyed, key));
    }

    private static async Task<string> Key(string folder)
    {
        using var store = SqliteStore.Open(folder);
        return (await new AccessKeys(new AccessKeyStore(store), TimeProvider.System).Create(Caller.LocalOrganisation, Scopes.Recommend, null, null))!.Value.Secret.Reveal();
    }
}
