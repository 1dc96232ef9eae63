using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;
using Recommender.Answers;
using Recommender.Storage;

namespace Recommender.Api.Operations;

/// <summary>
/// OpenTelemetry: metrics at /metrics for Prometheus, and metrics and traces to a collector where the standard variables (OTEL_EXPORTER_OTLP_ENDPOINT and its kin) name one.
/// Nothing that a caller sent is in them: of an address only its pattern.
/// </summary>
public static class Telemetry
{
    /// <summary>Where Prometheus reads.</summary>
    public const string MetricsPath = "/metrics";

    private const string Disabled = "OTEL_SDK_DISABLED";
    private const string Endpoint = "OTEL_EXPORTER_OTLP_ENDPOINT";

    /// <summary>Registers it, unless OTEL_SDK_DISABLED is true.</summary>
    public static void AddTelemetry(this IServiceCollection services, IConfiguration configuration)
    {
        services.AddMetrics();
        services.AddSingleton<ServiceMetrics>();
        if (IsDisabled(configuration))
        {
            return;
        }

        var collector = configuration[Endpoint] is { Length: > 0 };
        var telemetry = services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService("recommender", autoGenerateServiceInstanceId: true))
            .WithMetrics(metrics =>
            {
                metrics.AddMeter("Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "System.Runtime", ServiceMetrics.Name, AnswerMetrics.Name, StoreMetrics.Name).AddPrometheusExporter();
                if (collector)
                {
                    metrics.AddOtlpExporter();
                }
            });
        if (collector)
        {
            telemetry.WithTracing(traces => traces.AddAspNetCoreInstrumentation(o => o.EnrichWithHttpResponse = (span, response) =>
            {
                // An address may hold an athlete's ref; its pattern does not.
                span.SetTag("url.path", (response.HttpContext.GetEndpoint() as RouteEndpoint)?.RoutePattern.RawText ?? "");
                span.SetTag("url.query", null);
                span.SetTag("user_agent.original", null);
            }).AddSource(AnswerMetrics.Name, StoreMetrics.Name).AddOtlpExporter());
        }
    }

    /// <summary>
    /// Lines of JSON on the console where Logging:Console:FormatterName is json, which the slim builder does not heed by itself. Without scopes: a request's scope holds its address.
    /// </summary>
    public static void AddChosenConsole(this ILoggingBuilder logging, IConfiguration configuration)
    {
        if (configuration["Logging:Console:FormatterName"] == "json")
        {
            logging.AddJsonConsole(o =>
            {
                o.UseUtcTimestamp = true;
                o.TimestampFormat = "yyyy-MM-ddTHH:mm:ss.fffZ";
                o.IncludeScopes = false;
            });
        }
    }

    /// <summary>Serves /metrics. Open on loopback, like everything else until there are keys; with keys it asks for one that may read the record.</summary>
    public static void MapMetrics(this WebApplication app)
    {
        if (!IsDisabled(app.Configuration))
        {
            app.MapPrometheusScrapingEndpoint(MetricsPath);
        }
    }

    private static bool IsDisabled(IConfiguration configuration) => string.Equals(configuration[Disabled], "true", StringComparison.OrdinalIgnoreCase);
}
