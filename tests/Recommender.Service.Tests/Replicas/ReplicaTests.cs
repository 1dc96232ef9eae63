using Recommender.Testing.Postgres;
using Xunit.Abstractions;

namespace Recommender.Service.Tests.Replicas;

/// <summary>
/// A share of what <c>dotnet run -c Release --project tests/Recommender.Service.Tests -- replicas</c> does. The run fails by itself where a replica never answers on what the other put in force, or never again; it
/// tells how long each took, which on a machine that is busy with others says nothing of the service.
/// </summary>
public sealed class ReplicaTests(ITestOutputHelper output)
{
    [SkippableFact]
    public async Task Nothing_that_was_answered_is_lost_or_made_twice_whatever_is_killed()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        using var run = new ReplicaRun(output.WriteLine);

        var result = await run.Of(TimeSpan.FromSeconds(20));

        output.WriteLine(result.ToString());
        Assert.True(result.Answered >= 100, $"only {result.Answered} answers");
        Assert.Equal(result.Answered, result.Decisions);
        Assert.InRange(result.OnNewCatalogue, 1, result.Answered - 1);
        Assert.Equal((0, 0), (result.Faults, result.WithoutRetryAfter));
        Assert.Equal((0, 0, 0), (result.Missing, result.Changed, result.Differing));
        Assert.True(result.ChainIntact);
        Assert.All(result.Refused, r => Assert.Equal("503 with Retry-After", r));
    }
}
