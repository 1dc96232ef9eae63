using Recommender.Service.Tests.Overload;
using Xunit.Abstractions;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>A share of the full run; <c>dotnet run --project tests/Recommender.Service.Tests -- fuzz</c> sends 100,000.</summary>
[Collection(Alone.Name)]
public sealed class FuzzTests(ITestOutputHelper output)
{
    private const int Share = 3000;
    private const long MostGrowth = 96 * 1024 * 1024;

    [Fact]
    public async Task Whatever_is_sent_is_answered_as_the_document_says_and_never_with_a_5xx()
    {
        // One seed, so that a change is judged by the same requests as the one before it; the command takes another each time.
        const ulong seed = 20260301;

        var result = await FuzzRun.Of(seed, Share);

        output.WriteLine($"seed {seed}: {result.Records} decisions, statuses {string.Join(", ", result.Statuses.Select(s => $"{s.Key} x {s.Value}"))}, {result.Elapsed.TotalSeconds:0} s");
        Assert.True(result.Faults.Count == 0, $"seed {seed}; again: dotnet run --project tests/Recommender.Service.Tests -- fuzz-one {seed} NUMBER\n{string.Join("\n\n", result.Faults)}");
        // A generator that makes nothing the service takes, or nothing that it refuses, tries nothing.
        Assert.True(result.Makings[Making.Valid].Taken > result.Makings[Making.Valid].Of / 2, $"{result.Makings[Making.Valid]} valid requests were taken");
        Assert.All([400, 404, 405, 413, 415, 422], status => Assert.True(result.Statuses.ContainsKey(status), $"nothing was answered with {status}"));
        Assert.True(result.Records > Share / 20);
        Assert.True(result.HeapAfter - result.HeapBefore < MostGrowth, $"the heap grew from {result.HeapBefore} to {result.HeapAfter} bytes");
    }
}
