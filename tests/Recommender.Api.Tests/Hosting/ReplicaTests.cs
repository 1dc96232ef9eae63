using System.Diagnostics;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Testing.Postgres;

namespace Recommender.Api.Tests.Hosting;

/// <summary>Two services on one PostgreSQL database, behind no load balancer at all: any request may go to either.</summary>
public sealed class ReplicaTests : IDisposable
{
    private const string WatchSeconds = "0.2";

    private readonly PostgresServer server;
    private readonly ApiHost one;
    private readonly ApiHost two;

    public ReplicaTests()
    {
        Skip.If(PostgresPrograms.WhyNot is not null, PostgresPrograms.WhyNot);
        server = new PostgresServer();
        var settings = new Dictionary<string, string>
        {
            ["Storage:Provider"] = "postgres",
            ["Storage:ConnectionString"] = server.NewDatabase(),
            ["Storage:WatchSeconds"] = WatchSeconds,
        };
        one = new ApiHost { Settings = settings };
        two = new ApiHost { Settings = settings };
    }

    private ApiHost[] Both => [one, two];

    public void Dispose()
    {
        one.Dispose();
        two.Dispose();
        server.Dispose();
    }

    [SkippableFact]
    public async Task One_record_is_kept_by_both_and_one_key_is_answered_once()
    {
        var answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(async i =>
        {
            using var response = await Both[i % 2].Post("/v1/recommendations", Examples.Minimal(), ("Idempotency-Key", $"key-{i / 6}"));
            Assert.Equal(200, (int)response.StatusCode);
            return await response.Content.ReadAsStringAsync();
        }));

        Assert.Equal(2, answers.Distinct().Count());
        var id = (string)JsonNode.Parse(answers[0])!["decisionId"]!;
        Assert.Equal((string)(await one.Get($"/v1/decisions/{id}"))["hash"]!, (string)(await two.Get($"/v1/decisions/{id}"))["hash"]!);
        var verified = await two.Answer("/v1/decisions/verify", "{}");
        Assert.True((bool)verified["intact"]!);
        Assert.Equal(2, (long)verified["checked"]!);
    }

    [SkippableFact]
    public async Task What_one_puts_in_force_the_other_answers_on_within_its_watch()
    {
        var before = (string)(await two.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["rules"]!;
        var rules = await one.Get("/v1/rules/versions/current");
        var defaults = rules["rules/defaults.json"]!.DeepClone();
        defaults["smallSpaceMetres"] = (double)defaults["smallSpaceMetres"]! + 0.5;
        var draft = await Draft(new JsonObject { ["upsert"] = new JsonArray(new JsonObject { ["file"] = "rules/defaults.json", ["content"] = defaults }) });
        using var published = await one.Client.PutAsync("/v1/rules/current", new StringContent($$"""{"version":"{{draft}}"}""", System.Text.Encoding.UTF8, "application/json"));
        Assert.True((int)published.StatusCode == 200, await published.Content.ReadAsStringAsync());

        var waiting = Stopwatch.StartNew();
        while ((string)(await two.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["rules"]! == before)
        {
            // Its watch is 0.2 s; the machine that tests run on may be busy with others.
            Assert.True(waiting.Elapsed < TimeSpan.FromMinutes(1), "the other replica still answers on what was in force before.");
        }

        Assert.Equal(draft, (string)(await two.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["rules"]!);
    }

    [SkippableFact]
    public async Task While_the_database_is_away_both_say_so_and_afterwards_both_answer_without_a_restart()
    {
        foreach (var api in Both)
        {
            await api.Answer("/v1/recommendations", Examples.Minimal());
        }

        server.Kill();
        foreach (var api in Both)
        {
            using var refused = await api.Post("/v1/recommendations", Examples.Minimal());
            await ProblemAssert.Is(refused, 503, "store-unavailable");
            Assert.True(refused.Headers.RetryAfter?.Delta > TimeSpan.Zero);
            using var ready = await api.Client.GetAsync("/health/ready");
            await ProblemAssert.Is(ready, 503, "store-unavailable");
            using var live = await api.Client.GetAsync("/health/live");
            Assert.Equal(200, (int)live.StatusCode);
        }

        server.Start();
        foreach (var api in Both)
        {
            await api.Get("/health/ready");
            await api.Answer("/v1/recommendations", Examples.Minimal());
        }

        var verified = await one.Answer("/v1/decisions/verify", "{}");
        Assert.True((bool)verified["intact"]!);
        Assert.Equal(4, (long)verified["checked"]!);
    }

    [SkippableFact]
    public async Task A_form_of_one_is_taken_by_the_other()
    {
        await one.Get("/health/ready");
        var token = one.Services.GetRequiredService<IDataProtectionProvider>().CreateProtector("test").Protect("form");

        await two.Get("/health/ready");

        Assert.Equal("form", two.Services.GetRequiredService<IDataProtectionProvider>().CreateProtector("test").Unprotect(token));
    }

    private async Task<string> Draft(JsonObject body)
    {
        using var response = await one.Post("/v1/rules/versions", body.ToJsonString());
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode is 200 or 201, text);
        return (string)JsonNode.Parse(text)!["version"]!;
    }
}
