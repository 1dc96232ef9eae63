namespace Recommender.Benchmarks.Http;

/// <summary>What it costs a request that the service measures itself: switched off beside as it is by default, when metrics are kept to be fetched and traces go nowhere.</summary>
internal static class TelemetryBenchmark
{
    public static async Task Run()
    {
        using var off = ServerProcess.Service(Folder(), ("OTEL_SDK_DISABLED", "true"));
        using var on = ServerProcess.Service(Folder());
        await InTurns.Compare(new("without telemetry", off), new("with telemetry", on));
    }

    private static string Folder() => Path.Combine(Path.GetTempPath(), $"recommender-benchmark-{Guid.NewGuid():N}");
}
