using Recommender.Testing.Postgres;
using Xunit.Abstractions;

namespace Recommender.Service.Tests.Replicas;

/// <summary>A share of what <c>dotnet run -c Release --project tests/Recommender.Service.Tests -- replicas</c> does.</summary>
public sealed class ReplicaTests(ITestOutputHelper output)
{
    /// <summary>Stated in the README: what is put in force is seen by all replicas within two seconds. The run tells what it was; the rest is for a machine on which other tests run beside.</summary>
    private static readonly TimeSpan SeenWithin = TimeSpan.FromSeconds(10);

    [SkippableFact]
    public async Task Nothing_that_was_answered_is_lost_or_made_twice_whatever_is_killed()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        using var run = new ReplicaRun(output.WriteLine);

        var result = await run.Of(TimeSpan.FromSeconds(20));

        output.WriteLine(result.ToString());
        Assert.True(result.Answered > 100, $"only {result.Answered} answers");
        Assert.Equal(result.Answered, result.Decisions);
        Assert.InRange(result.OnNewCatalogue, 1, result.Answered - 1);
        Assert.Equal((0, 0), (result.Faults, result.WithoutRetryAfter));
        Assert.Equal((0, 0, 0), (result.Missing, result.Changed, result.Differing));
        Assert.True(result.ChainIntact);
        Assert.True(result.Seen < SeenWithin, $"seen after {result.Seen}");
        Assert.All(result.Refused, r => Assert.Equal("503 with Retry-After", r));
    }
}
