using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Dapper;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Recommender.Testing;

namespace Recommender.Service.Tests.Operations;

/// <summary>What the service tells of itself, and that nothing a caller sent is in it.</summary>
public sealed partial class TelemetryTests
{
    private const string Mark = "zqxprivate";

    [Fact]
    public async Task Logs_are_json_and_hold_nothing_that_a_caller_sent()
    {
        using var service = await ServiceProcess.Start(("Logging__Console__FormatterName", "json"), ("Logging__LogLevel__Default", "Debug"));
        using var client = new HttpClient { BaseAddress = service.Address };

        await SendMarked(client);
        await using (var store = service.Store())
        {
            await store.ExecuteAsync("CREATE TRIGGER full BEFORE INSERT ON decisions BEGIN INSERT INTO nowhere VALUES (1); END");
            Assert.Equal(503, await client.Ask("/v1/recommendations", Marked));
        }

        service.Terminate();
        await service.Ended();
        Assert.Contains(service.Lines, l => l.Contains("could not use the store", StringComparison.Ordinal));
        Assert.All(service.Lines, line =>
        {
            Assert.NotNull(JsonNode.Parse(line)!["LogLevel"]);
            Assert.DoesNotContain(Mark, line, StringComparison.OrdinalIgnoreCase);
        });
    }

    [Fact]
    public async Task Metrics_tell_requests_answers_commits_and_places_in_the_exposition_format()
    {
        using var service = await ServiceProcess.Start();
        using var client = new HttpClient { BaseAddress = service.Address };
        await SendMarked(client);

        using var answer = await client.GetAsync("/metrics");

        var text = await answer.Content.ReadAsStringAsync();
        Assert.Equal("text/plain", answer.Content.Headers.ContentType?.MediaType);
        // Prometheus text exposition format 0.0.4: comment lines, or a name, labels in braces, a value, and perhaps a time.
        Assert.All(text.Split('\n', StringSplitOptions.RemoveEmptyEntries), line => Assert.Matches(ExpositionLine(), line));
        foreach (var name in new[]
        {
            "http_server_request_duration_seconds_bucket", "recommender_answer_duration_seconds_bucket", "recommender_answer_eligible", "recommender_commit_records_bucket", "recommender_commit_duration_seconds_bucket",
            "recommender_append_waiting", "recommender_work_waiting", "recommender_work_places",
        })
        {
            Assert.Contains(name, text, StringComparison.Ordinal);
        }

        Assert.Contains("http_route=\"/v1/athletes/{ref}\"", text, StringComparison.Ordinal);
        Assert.DoesNotContain(Mark, text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Traces_reach_a_collector_with_a_span_for_computing_and_storing_and_nothing_that_a_caller_sent()
    {
        var received = new MemoryStream();
        await using var collector = await Collector(received);
        using var service = await ServiceProcess.Start(
            ("OTEL_EXPORTER_OTLP_ENDPOINT", collector.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()), ("OTEL_EXPORTER_OTLP_PROTOCOL", "http/protobuf"),
            ("OTEL_BSP_SCHEDULE_DELAY", "200"), ("OTEL_METRIC_EXPORT_INTERVAL", "300"));
        using var client = new HttpClient { BaseAddress = service.Address };

        await SendMarked(client);
        service.Terminate();
        await service.Ended();

        // Protocol buffers keep text as UTF-8, so names can be looked for in the bytes.
        var text = System.Text.Encoding.UTF8.GetString(received.ToArray());
        Assert.Contains("compute answer", text, StringComparison.Ordinal);
        Assert.Contains("store decision", text, StringComparison.Ordinal);
        Assert.Contains("/v1/athletes/{ref}", text, StringComparison.Ordinal);
        Assert.Contains("recommender.commit.records", text, StringComparison.Ordinal);
        Assert.DoesNotContain(Mark, text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task It_can_be_switched_off()
    {
        using var service = await ServiceProcess.Start(("OTEL_SDK_DISABLED", "true"));
        using var client = new HttpClient { BaseAddress = service.Address };

        using var answer = await client.GetAsync("/metrics");

        Assert.Equal(404, (int)answer.StatusCode);
        Assert.Equal(200, await client.Ask());
    }

    private const string Marked = $$"""{"athlete":{"ref":"{{Mark}}-ref","eventGroup":"jumps"},"phase":"competition","coach":"{{Mark}}-coach","complaints":[{"region":"knee","pain":2,"note":"{{Mark}} note"}]}""";

    private static async Task SendMarked(HttpClient client)
    {
        client.DefaultRequestHeaders.Add("User-Agent", $"{Mark}/1");
        Assert.Equal(200, await client.Ask("/v1/recommendations", Marked));
        Assert.Equal(400, await client.Ask("/v1/recommendations", $"{{\"{Mark}\":1}}"));
        Assert.Equal(422, await client.Ask("/v1/recommendations", Marked.Replace("knee", Mark, StringComparison.Ordinal)));
        using var keyed = new HttpRequestMessage(HttpMethod.Post, "/v1/recommendations") { Content = Bodies.Json(Marked), Headers = { { "Idempotency-Key", Mark } } };
        using var ofKey = await client.SendAsync(keyed);
        Assert.Equal(200, (int)ofKey.StatusCode);
        using var withKey = new HttpRequestMessage(HttpMethod.Get, "/v1/vocabulary") { Headers = { { "Authorization", $"Bearer {Mark}" } } };
        using var ofWrongKey = await client.SendAsync(withKey);
        Assert.Equal(401, (int)ofWrongKey.StatusCode);
        using var profile = await client.GetAsync($"/v1/athletes/{Mark}");
        Assert.Equal(404, (int)profile.StatusCode);
        using var found = await client.GetAsync($"/v1/decisions?athlete={Mark}-ref");
        Assert.Equal(200, (int)found.StatusCode);
        using var nothing = await client.GetAsync($"/{Mark}?x={Mark}");
        Assert.Equal(404, (int)nothing.StatusCode);
    }

    private static async Task<WebApplication> Collector(MemoryStream received)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        var app = builder.Build();
        app.Run(async context =>
        {
            using var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body);
            lock (received)
            {
                received.Write(body.ToArray());
            }

            context.Response.ContentType = "application/x-protobuf";
        });
        await app.StartAsync();
        return app;
    }

    [GeneratedRegex(@"^(#.*|[a-zA-Z_:][a-zA-Z0-9_:]*(\{.*\})? (NaN|[+-]Inf|[-+0-9.eE]+)( \d+)?)\r?$")]
    private static partial Regex ExpositionLine();
}
