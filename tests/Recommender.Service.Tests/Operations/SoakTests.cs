using Xunit.Abstractions;

namespace Recommender.Service.Tests.Operations;

/// <summary>A share of the soak; <c>dotnet run -c Release --project tests/Recommender.Service.Tests -- soak 60</c> runs an hour.</summary>
public sealed class SoakTests(ITestOutputHelper output)
{
    /// <summary>
    /// A leak of what one answer takes (its 41 KB alone) would be over forty megabytes a thousand requests. Caches that fill up and the collector's own rhythm stay well below this.
    /// </summary>
    private const double MostBytesAThousand = 20 * 1024 * 1024;

    /// <summary>On a slow machine so few are asked that the collector's rhythm is more than what a thousand of them may leave; a leak of whole answers is more than this after a thousand of them.</summary>
    private const double Rhythm = 30 * 1024 * 1024;

    /// <summary>Fewer tell nothing; on a slow machine it goes on until they are answered.</summary>
    private const int Least = 600;

    [Fact]
    public async Task Memory_does_not_grow_with_what_was_answered()
    {
        var result = await SoakRun.Of(TimeSpan.FromSeconds(40), Least, output.WriteLine);

        output.WriteLine($"{result.Requests} requests after the warm-up, heap {result.HeapSlope / 1024:0} KB and resident {result.ResidentSlope / 1024:0} KB a thousand requests");
        Assert.True(result.Requests >= Least, $"only {result.Requests} requests");
        Assert.All(result.Samples, s => Assert.True(s.Heap > 0, "the heap is not told"));
        Assert.InRange(result.HeapSlope * result.Requests / 1000, double.MinValue, Math.Max(Rhythm, MostBytesAThousand * result.Requests / 1000));
    }
}
