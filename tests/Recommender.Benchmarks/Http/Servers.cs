using System.IO.Pipelines;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Recommender.Answers.Wire;
using Recommender.Api.Access;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Api.Recommendations;
using Recommender.Domain;
using Recommender.Domain.Decisions;
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
            await Drain(context.Request.BodyReader);
            await Send(context.Response, answer);
        });
        await app.RunAsync();
    }

    /// <summary>The bare endpoint again, but each answer is serialised from ready objects: no service of this contract can be faster.</summary>
    public static async Task Serialising(string url)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls(url);
        var app = builder.Build();
        var edition = Requests.ShippedEdition();
        Answer[] answers = [.. Requests.OfTheSquad().Select(r => RecommendationPipeline.Answer(r, edition, Guid.CreateVersion7().ToString()))];
        var next = 0;
        app.MapPost(HttpBenchmark.Path, async (HttpContext context) =>
        {
            await Drain(context.Request.BodyReader);
            var answer = JsonSerializer.SerializeToUtf8Bytes(answers[(uint)Interlocked.Increment(ref next) % answers.Length], WireJson.Default.Answer);
            await Send(context.Response, answer);
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
        var access = AccessSettings.Of(builder.Configuration);
        builder.Services.AddAccess(access);
        builder.Services.Replace(ServiceDescriptor.Singleton<IDecisionLog>(new DiscardingLog()));
        var app = builder.Build();
        await StartUp.Prepare(app.Services);
        app.UseProblems();
        app.UseRouting();
        app.UseAccess(access);
        app.MapRecommendations();
        await app.RunAsync();
    }

    private static async Task Drain(PipeReader reader)
    {
        ReadResult read;
        while (!(read = await reader.ReadAsync()).IsCompleted)
        {
            reader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        }

        reader.AdvanceTo(read.Buffer.End);
    }

    private static ValueTask Send(HttpResponse response, byte[] answer)
    {
        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = answer.Length;
        return response.Body.WriteAsync(answer);
    }
}
