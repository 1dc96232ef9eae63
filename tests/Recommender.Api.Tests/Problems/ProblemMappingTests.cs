using Microsoft.Extensions.DependencyInjection;
using Recommender.Api.Tests.Hosting;
using Recommender.Domain.Decisions;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Tests.Problems;

[Collection(SharedApi.Name)]
public sealed class ProblemMappingTests(ApiHost api)
{
    [Theory]
    [InlineData("/v1/nothing")]
    [InlineData("/v2/recommendations")]
    [InlineData("/openapi/v9.json")]
    [InlineData("/favicon.ico")]
    [InlineData("/%3Cscript%3E")]
    public async Task A_path_that_nothing_answers_is_not_found(string path)
    {
        using var response = await api.Client.GetAsync(path);

        await ProblemAssert.Is(response, 404, "not-found");
    }

    [Theory]
    [InlineData("GET", "/v1/recommendations", "POST")]
    [InlineData("DELETE", "/v1/recommendations/batch", "POST")]
    [InlineData("POST", "/v1/vocabulary", "GET")]
    [InlineData("PUT", "/v1/exercises/back-squat", "GET")]
    [InlineData("PATCH", "/v1/decisions/x", "GET")]
    [InlineData("POST", "/health/live", "GET")]
    public async Task A_method_that_is_not_offered_is_refused_and_told_which_is(string method, string path, string allowed)
    {
        using var message = new HttpRequestMessage(new HttpMethod(method), path);

        using var response = await api.Client.SendAsync(message);

        var problem = await ProblemAssert.Is(response, 405, "method-not-allowed");
        // HEAD wherever GET is, OPTIONS everywhere (RFC 9110, 9.3.2 and 9.3.7).
        string[] all = allowed == "GET" ? ["GET", "HEAD", "OPTIONS"] : ["OPTIONS", allowed];
        Assert.Equal(all, response.Content.Headers.Allow.Order(StringComparer.Ordinal));
        Assert.Contains(allowed, (string)problem["detail"]!);
    }

    [Fact]
    public async Task Our_own_fault_is_a_500_that_says_nothing_about_us()
    {
        await using var broken = new ApiHost { Replace = services => services.AddSingleton<IDecisionLog>(new FailingLog(new InvalidOperationException($"Sqlite secret at {AppContext.BaseDirectory}x.cs"))) };

        using var response = await broken.Post("/v1/recommendations", Examples.Minimal());

        var problem = await ProblemAssert.Is(response, 500, "internal-error");
        Assert.DoesNotContain("secret", problem.ToJsonString());
    }

    [Fact]
    public async Task A_store_that_fails_is_a_503_with_retry_after_for_every_call_that_needs_it()
    {
        await using var broken = new ApiHost { Replace = services => services.AddSingleton<IDecisionLog>(new FailingLog(new StoreUnavailableException("Sqlite secret"))) };
        var calls = new Func<Task<HttpResponseMessage>>[]
        {
            () => broken.Post("/v1/recommendations", Examples.Minimal()),
            () => broken.Post("/v1/recommendations", Examples.Minimal(), ("Idempotency-Key", "k")),
            () => broken.Post("/v1/recommendations/batch", $"{{\"requests\":[{Examples.Minimal()}]}}"),
            () => broken.Client.GetAsync("/v1/decisions/x"),
        };

        foreach (var call in calls)
        {
            using var response = await call();

            await ProblemAssert.Is(response, 503, "store-unavailable");
            Assert.True(response.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        }
    }

    private sealed class FailingLog(Exception failure) : IDecisionLog
    {
        public ValueTask<bool> Append(IReadOnlyList<DecisionRecord> records, IdempotencyClaim? claim) => ValueTask.FromException<bool>(failure);

        public ValueTask<bool> Claim(string organisation, IdempotencyClaim claim) => ValueTask.FromException<bool>(failure);

        public Task<StoredDecision?> Read(string organisation, string decisionId) => Task.FromException<StoredDecision?>(failure);

        public Task<StoredAnswer?> ReadClaim(string organisation, string key, DateTimeOffset notBefore) => Task.FromException<StoredAnswer?>(failure);

        public Task<int> Erase(string organisation, string athleteRef) => Task.FromException<int>(failure);
    }
}
