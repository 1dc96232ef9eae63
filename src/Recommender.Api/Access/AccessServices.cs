using Microsoft.AspNetCore.HttpOverrides;
using Recommender.Api.Hosting;

namespace Recommender.Api.Access;

/// <summary>Who is let in: registered and put in place with one call each.</summary>
public static class AccessServices
{
    private static readonly string[] Methods = ["GET", "POST", "PUT", "DELETE"];
    private static readonly string[] Sent = ["Authorization", "Content-Type", "Accept", Idempotency.Header];
    private static readonly string[] Shown = ["Retry-After", "Link", "WWW-Authenticate", "Allow"];

    /// <summary>Registers what it needs.</summary>
    public static void AddAccess(this IServiceCollection services, AccessSettings settings)
    {
        services.AddSingleton(settings);
        services.AddRequestRates(settings);
        services.AddSingleton<KeyLookups>();
        if (settings.Origins.Count > 0)
        {
            // No credentials: a cookie opens no call of the API, and a key is sent by the script that has it.
            services.AddCors(cors => cors.AddDefaultPolicy(policy => policy.WithOrigins([.. settings.Origins]).WithMethods(Methods).WithHeaders(Sent).WithExposedHeaders(Shown)));
        }
    }

    /// <summary>Takes the word of known proxies on who asks and whether by https; of nobody where none is known.</summary>
    public static void UseForwarding(this IApplicationBuilder app, AccessSettings settings)
    {
        if (settings.Proxies.Count == 0)
        {
            return;
        }

        var options = new ForwardedHeadersOptions { ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto, ForwardLimit = null };
        options.KnownProxies.Clear();
        options.KnownIPNetworks.Clear();
        foreach (var network in settings.Proxies)
        {
            options.KnownIPNetworks.Add(network);
        }

        app.UseForwardedHeaders(options);
    }

    /// <summary>Finds out who asks, how often, and whether they may; after the routes are known and before anything answers.</summary>
    public static void UseAccess(this IApplicationBuilder app, AccessSettings settings)
    {
        if (settings.Origins.Count > 0)
        {
            app.UseWhen(context => context.Request.Path.StartsWithSegments("/v1"), api => api.UseCors());
        }

        app.UseMiddleware<Identification>();
        app.UseRateLimiter();
        app.UseMiddleware<PermissionCheck>();
    }
}
