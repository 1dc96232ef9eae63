using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Http.Features;

namespace Recommender.Api.Hosting;

/// <summary>
/// Reads a part of the path as it was sent. The server leaves %2F as it stands and decodes all else, so that a/b, sent as a%2Fb, and a%2Fb, sent as a%252Fb, arrive alike; what stands in the raw path tells them
/// apart (RFC 3986, 2.4: decoded once).
/// </summary>
internal static partial class RouteValuesAsSent
{
    /// <summary>Puts it between the routes and what reads their values.</summary>
    public static void UseRouteValuesAsSent(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        // Hardly any path holds one; the others are not looked at further.
        if (context.Request.Path.Value?.Contains("%2F", StringComparison.OrdinalIgnoreCase) == true)
        {
            foreach (var (name, value) in context.Request.RouteValues.ToArray())
            {
                context.Request.RouteValues[name] = value is string text ? AsSent(context, text) : value;
            }
        }

        return next(context);
    });

    private static string AsSent(HttpContext context, string text)
    {
        var target = context.Features.Get<IHttpRequestFeature>()?.RawTarget ?? "";
        var segment = target.Split('?', 2)[0].Split('/').FirstOrDefault(s => Uri.UnescapeDataString(Slash().Replace(s, "%25$1")) == text);
        return segment is null ? text : Uri.UnescapeDataString(segment);
    }

    [GeneratedRegex("%(2[Ff])")]
    private static partial Regex Slash();
}
