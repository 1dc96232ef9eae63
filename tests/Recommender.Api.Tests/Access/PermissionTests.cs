using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers.Access;
using Recommender.Api.Access;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

/// <summary>Every call that is mapped: that something is decided on it, that the document says the same, and that it is kept.</summary>
public sealed class PermissionTests : IAsyncLifetime
{
    private readonly ApiHost api = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await api.DisposeAsync();

    [Fact]
    public void No_call_is_without_a_decision_and_only_those_named_here_are_open()
    {
        _ = api.Client;
        var routes = api.Services.GetRequiredService<IEnumerable<EndpointDataSource>>().SelectMany(s => s.Endpoints).OfType<RouteEndpoint>().ToList();

        Assert.True(routes.Count > 60);
        Assert.All(routes, r => Assert.True(Permissions.Of(r) is not null, $"nothing says who may call {r.RoutePattern.RawText}"));
        var open = routes.Where(r => !Permissions.Of(r)!.KeyNeeded).Select(r => "/" + r.RoutePattern.RawText!.Trim('/').Split('.')[0]).Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(["/assets/coach", "/assets/mark", "/assets/stop", "/health/live", "/health/ready", "/sign-in", "/sign-out"], open);
        Assert.All(routes.Where(r => Permissions.Of(r)!.KeyNeeded), r => Assert.NotEqual(Scopes.None, Permissions.Of(r)!.Scopes));
    }

    [Theory]
    [InlineData("POST", "/v1/recommendations", "recommend")]
    [InlineData("POST", "/v1/recommendations/batch", "recommend")]
    [InlineData("GET", "/v1/decisions/{id}", "recommend")]
    [InlineData("DELETE", "/v1/athletes/{ref}", "recommend")]
    [InlineData("GET", "/v1/decisions", "audit")]
    [InlineData("GET", "/v1/decisions/export", "audit")]
    [InlineData("GET", "/v1/decisions/{id}/counterfactuals", "audit")]
    [InlineData("POST", "/v1/decisions/{id}/replay", "audit")]
    [InlineData("POST", "/v1/decisions/verify", "audit")]
    [InlineData("PUT", "/v1/rules/current", "curate")]
    [InlineData("GET", "/v1/catalogue/versions", "curate")]
    [InlineData("POST", "/v1/keys/{id}/rotation", "admin")]
    [InlineData("GET", "/versions/upload", "curate")]
    [InlineData("GET", "/decisions/{id}", "audit")]
    public void A_call_needs_the_scope_that_the_contract_names(string method, string pattern, string scope) => Assert.Equal([scope], ScopeWords.Of(Permissions.Of(method, pattern)!.Scopes));

    [Fact]
    public void What_the_table_does_not_know_nobody_may_call() => Assert.Null(Permissions.Of("GET", "/v1/surprise"));

    [Fact]
    public async Task Every_operation_refuses_no_key_a_wrong_one_and_each_that_lacks_its_scope()
    {
        var document = await ServedDocument.Of(api);
        var keys = new Dictionary<string, string>();
        foreach (var word in ScopeWords.All)
        {
            keys[word] = await api.Key("club", Scopes.All & ~ScopeWords.Read(word));
        }

        // With the id of a key that is there: one that is made up altogether may be sent only so often (ReachTests).
        var wrong = KeySecret.For(KeySecret.Read(keys[ScopeWords.All[0]])!.Id).Reveal();
        foreach (var (path, method, operation) in document.Operations())
        {
            var needed = (operation["security"]?.AsArray() ?? []).SelectMany(s => s!["accessKey"]!.AsArray()).Select(s => (string)s!).ToList();
            var at = path.Replace("{", "", StringComparison.Ordinal).Replace("}", "", StringComparison.Ordinal);
            if (path.StartsWith("/health", StringComparison.Ordinal))
            {
                Assert.Empty(needed);
                await api.Text(null, 200, method, at);
                continue;
            }

            Assert.Single(needed);
            using var nobody = await api.Ask(null, method, at, method is "get" or "delete" ? null : "{}");
            await ProblemAssert.Is(nobody, 401, "key-needed");
            Assert.Equal("Bearer realm=\"recommender\"", nobody.Headers.WwwAuthenticate.Single().ToString());
            using var stranger = await api.Ask(wrong, method, at, method is "get" or "delete" ? null : "{}");
            await ProblemAssert.Is(stranger, 401, "key-needed");
            Assert.Contains("error=\"invalid_token\"", stranger.Headers.WwwAuthenticate.Single().ToString());
            Assert.DoesNotContain(wrong[^64..], await stranger.Content.ReadAsStringAsync());
            using var lacking = await api.Ask(keys[needed[0]], method, at, method is "get" or "delete" ? null : "{}");
            await ProblemAssert.Is(lacking, 403, "scope-missing");
            Assert.Contains($"error=\"insufficient_scope\", scope=\"{needed[0]}\"", lacking.Headers.WwwAuthenticate.Single().ToString());
            Assert.All(["401", "403", "429"], status => Assert.True(operation["responses"]![status] is not null, $"{path} does not say {status}"));
        }
    }
}
