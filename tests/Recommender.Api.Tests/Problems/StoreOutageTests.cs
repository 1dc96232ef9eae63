using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Problems;

/// <summary>A real store that cannot be written for a while: a trigger that leads nowhere stands in for a full disk (a really full one is in the tests of the store).</summary>
public sealed class StoreOutageTests
{
    [Fact]
    public async Task While_nothing_can_be_written_answers_do_not_leave_and_afterwards_they_do()
    {
        await using var api = new ApiHost();
        var before = await api.Answer("/v1/recommendations", Examples.Minimal());
        api.Sql("CREATE TRIGGER full BEFORE INSERT ON decisions BEGIN INSERT INTO nowhere VALUES (1); END");

        using var refused = await api.Post("/v1/recommendations", Examples.Minimal(), ("Idempotency-Key", "again"));
        using var refusedBatch = await api.Post("/v1/recommendations/batch", $"{{\"requests\":[{Examples.Minimal()}]}}");
        using var read = await api.Client.GetAsync($"/v1/decisions/{(string)before["decisionId"]!}");
        var storedMeanwhile = api.DecisionCount();
        api.Sql("DROP TRIGGER full");
        using var again = await api.Post("/v1/recommendations", Examples.Minimal(), ("Idempotency-Key", "again"));

        await ProblemAssert.Is(refused, 503, "store-unavailable");
        Assert.True(refused.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        await ProblemAssert.Is(refusedBatch, 503, "store-unavailable");
        Assert.Equal(200, (int)read.StatusCode);
        Assert.Equal(1, storedMeanwhile);
        Assert.Equal(200, (int)again.StatusCode);
        Assert.Equal(2, api.DecisionCount());
    }

    [Fact]
    public async Task Ready_tells_an_outage_and_its_end_while_live_stays_ok()
    {
        await using var api = new ApiHost();
        await api.Get("/health/ready");
        api.Sql("CREATE TRIGGER full BEFORE UPDATE ON marks BEGIN INSERT INTO nowhere VALUES (1); END");

        using var ready = await api.Client.GetAsync("/health/ready");
        var live = await api.Get("/health/live");
        api.Sql("DROP TRIGGER full");
        var after = await api.Get("/health/ready");

        await ProblemAssert.Is(ready, 503, "store-unavailable");
        Assert.True(ready.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Equal("ok", (string)live["status"]!);
        Assert.Equal("ok", (string)after["status"]!);
    }

    [Fact]
    public async Task The_chain_goes_on_unbroken_after_an_outage()
    {
        await using var api = new ApiHost();
        var first = await api.Answer("/v1/recommendations", Examples.Minimal());
        api.Sql("CREATE TRIGGER full BEFORE INSERT ON decisions BEGIN INSERT INTO nowhere VALUES (1); END");
        using var refused = await api.Post("/v1/recommendations", Examples.Minimal());
        api.Sql("DROP TRIGGER full");

        var second = await api.Answer("/v1/recommendations", Examples.Minimal());

        var earlier = await api.Get($"/v1/decisions/{(string)first["decisionId"]!}");
        var later = await api.Get($"/v1/decisions/{(string)second["decisionId"]!}");
        Assert.Equal((string)earlier["hash"]!, (string)later["previousHash"]!);
    }
}
