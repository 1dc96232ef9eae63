using System.IO.Pipelines;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Api.Recommendations;
using Recommender.Storage.Decisions;

namespace Recommender.Benchmarks.Http;

/// <summary>What runs in a process of its own beside the real service.</summary>
internal static class Servers
{
    /// <summary>The least that can take the body and send an answer of this size.</summary>
    public static async Task Bare(string url, int answerBytes)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls(url);
        var app = builder.Build();
        var answer = new byte[answerBytes];
        answer.AsSpan().Fill((byte)'x');
        app.MapPost(HttpBenchmark.Path, async (HttpContext context) =>
        {
            var reader = context.Request.BodyReader;
            ReadResult read;
            while (!(read = await reader.ReadAsync()).IsCompleted)
            {
                reader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
            }

            reader.AdvanceTo(read.Buffer.End);
            context.Response.ContentType = "application/json; charset=utf-8";
            context.Response.ContentLength = answer.Length;
            await context.Response.Body.WriteAsync(answer);
        });
        await app.RunAsync();
    }

    /// <summary>The service as its own program puts it together, with decisions discarded.</summary>
    public static async Task StoringOff(string url)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
        builder.WebHost.UseUrls(url);
        builder.Services.AddRecommender(Settings.Of(builder.Configuration));
        builder.Services.Replace(ServiceDescriptor.Singleton<IDecisionLog>(new DiscardingLog()));
        var app = builder.Build();
        await StartUp.Prepare(app.Services);
        app.UseProblems();
        app.MapRecommendations();
        await app.RunAsync();
    }
}
