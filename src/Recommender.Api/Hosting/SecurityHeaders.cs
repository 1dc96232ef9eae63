using Microsoft.Extensions.Primitives;

namespace Recommender.Api.Hosting;

/// <summary>Headers of every answer, whoever made it. Pages set stricter ones of their own; what is set already stays.</summary>
internal static class SecurityHeaders
{
    private static readonly StringValues NoSniff = "nosniff";
    private static readonly StringValues NoReferrer = "no-referrer";
    private static readonly StringValues NothingRuns = "default-src 'none'; frame-ancestors 'none'";

    // The page to browse the document carries its own scripts, and styles some of which are inline.
    private static readonly StringValues OfDocs = "default-src 'self'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; script-src 'self'; frame-ancestors 'none'";
    private static readonly StringValues NoStore = "no-store";
    private static readonly StringValues OneYear = "max-age=31536000";

    /// <summary>Sets them just before an answer goes out, so that an answer made in place of another has them too.</summary>
    public static void UseSecurityHeaders(this IApplicationBuilder app) => app.Use(static (context, next) =>
    {
        context.Response.OnStarting(static state => Set((HttpContext)state), context);
        return next(context);
    });

    private static Task Set(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.TryAdd("X-Content-Type-Options", NoSniff);
        headers.TryAdd("Referrer-Policy", NoReferrer);
        headers.TryAdd("Content-Security-Policy", context.Request.Path.StartsWithSegments("/docs") ? OfDocs : NothingRuns);

        // Nearly all of it is about persons, or an organisation's own; what may be kept says so.
        headers.TryAdd("Cache-Control", NoStore);
        if (context.Request.IsHttps)
        {
            headers.TryAdd("Strict-Transport-Security", OneYear);
        }

        return Task.CompletedTask;
    }
}
