using Microsoft.AspNetCore.Http;

namespace Recommender.Pages.Hosting;

/// <summary>Headers of every page: nothing from elsewhere, nothing inline, no frame, nothing kept by what lies between.</summary>
internal static class PageHeaders
{
    /// <summary>The policy. Styles and scripts come from this service alone, and none stands in a page.</summary>
    public const string Policy =
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    /// <summary>Sets them before an endpoint answers.</summary>
    public static ValueTask<object?> Set(EndpointFilterInvocationContext call, EndpointFilterDelegate next)
    {
        var response = call.HttpContext.Response;
        Set(response.Headers);

        // Health data: no shared cache, and the browser asks before it shows an old copy. Not no-store, which would lose a half-filled form on the way back; set last, since form tokens bring that.
        response.OnStarting(() =>
        {
            if (!response.Headers.CacheControl.ToString().Contains("immutable", StringComparison.Ordinal))
            {
                response.Headers.CacheControl = "private, no-cache";
                response.Headers.Pragma = default;
            }

            return Task.CompletedTask;
        });
        return next(call);
    }

    /// <summary>Sets them.</summary>
    public static void Set(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=()";
    }
}
