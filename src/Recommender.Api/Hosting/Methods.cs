using Microsoft.AspNetCore.Http.Features;

namespace Recommender.Api.Hosting;

/// <summary>HEAD and OPTIONS as RFC 9110 has them (sections 9.3.2, 9.3.7): HEAD is GET without the content, OPTIONS tells what an address offers.</summary>
internal static class Methods
{
    /// <summary>Puts them before the routes.</summary>
    public static void UseHeadAndOptions(this IApplicationBuilder app) => app.Use(static (context, next) =>
        HttpMethods.IsHead(context.Request.Method) ? Head(context, next) : Told(context, next));

    private static async Task Head(HttpContext context, RequestDelegate next)
    {
        var body = context.Features.GetRequiredFeature<IHttpResponseBodyFeature>();
        context.Request.Method = HttpMethods.Get;
        context.Features.Set<IHttpResponseBodyFeature>(new StreamResponseBodyFeature(Stream.Null));
        try
        {
            await next(context);
        }
        finally
        {
            context.Request.Method = HttpMethods.Head;
            context.Features.Set(body);
        }

        Complete(context);
    }

    private static async Task Told(HttpContext context, RequestDelegate next)
    {
        await next(context);
        Complete(context);
    }

    /// <summary>Names HEAD and OPTIONS among what is offered, and answers OPTIONS by that.</summary>
    private static void Complete(HttpContext context)
    {
        if (context.Response.StatusCode != StatusCodes.Status405MethodNotAllowed || context.Response.HasStarted)
        {
            return;
        }

        var offered = context.Response.Headers.Allow.ToString().Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        IEnumerable<string> all = offered.Contains("GET") ? [.. offered, "HEAD", "OPTIONS"] : [.. offered, "OPTIONS"];
        context.Response.Headers.Allow = string.Join(", ", all.Distinct());
        if (HttpMethods.IsOptions(context.Request.Method))
        {
            context.Response.StatusCode = StatusCodes.Status204NoContent;
        }
    }
}
