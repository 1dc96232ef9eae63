using System.Threading.RateLimiting;
using Microsoft.Extensions.Primitives;
using Recommender.Answers.Access;
using Recommender.Pages.Hosting;
using Recommender.Pages.SignIn;

namespace Recommender.Api.Access;

/// <summary>Finds out who sent a request, before anything is decided on it.</summary>
/// <param name="next">What comes after.</param>
/// <param name="keys">Knows keys.</param>
/// <param name="lookups">Counts the keys that have to be looked for.</param>
/// <param name="settings">Says whether others can reach the service.</param>
internal sealed class Identification(RequestDelegate next, AccessKeys keys, KeyLookups lookups, AccessSettings settings)
{
    private const string Scheme = "Bearer ";

    /// <summary>Finds out.</summary>
    public async Task Invoke(HttpContext context)
    {
        var permission = context.GetEndpoint() is RouteEndpoint endpoint ? Permissions.Of(endpoint) : null;
        var authorization = context.Request.Headers.Authorization;
        if (permission is { KeyNeeded: false })
        {
            // Open to everybody, whatever key is sent: whoever watches over the service must not be locked out by an old one.
        }
        else if (authorization.Count > 0)
        {
            RateLimitLease? tooOften = null;
            Take(context, Sent(authorization) is { } sent ? await keys.Check(sent, () => (tooOften = Refused(lookups.Take(context))) is null) : null, KeyFault.Wrong);
            if (tooOften is not null)
            {
                await RequestRates.Refuse(context, tooOften, settings.WithoutKey);
                return;
            }
        }
        else if (permission is { KeyNeeded: true } || (permission is null && PageResults.Wanted(context.Request)))
        {
            await WithoutKey(context);
        }

        await next(context);
    }

    private async Task WithoutKey(HttpContext context)
    {
        // A cookie opens pages alone: what programs call cannot be called by another site with a coach's sign-in.
        if (!PageResults.IsData(context.Request) && await context.SignedIn(keys) is { } caller)
        {
            Take(context, caller, null);
        }
        else if (settings.Reachable is null && !await keys.AnyIssued())
        {
            Take(context, OpenUse.IsFromHere(context) ? Caller.Local : null, KeyFault.Elsewhere);
        }
    }

    private static KeySecret? Sent(StringValues authorization) =>
        authorization is [{ } header] && header.StartsWith(Scheme, StringComparison.OrdinalIgnoreCase) ? KeySecret.Read(header.AsSpan(Scheme.Length).Trim()) : null;

    private static RateLimitLease? Refused(RateLimitLease lease) => lease.IsAcquired ? null : lease;

    private static void Take(HttpContext context, Caller? caller, KeyFault? otherwise)
    {
        if (caller is not null)
        {
            context.SetCaller(caller);
        }
        else
        {
            context.Features.Set(otherwise);
        }
    }
}

/// <summary>Why nobody is known where something was sent.</summary>
internal sealed class KeyFault
{
    private KeyFault(string text, string error)
    {
        Text = text;
        Challenge = $"Bearer realm=\"recommender\"{error}";
    }

    /// <summary>A key was sent that does not hold.</summary>
    public static KeyFault Wrong { get; } = new("The key that was sent is none of this service: misspelt, ended, at its end, or its secret was changed. Send Authorization: Bearer with a key that holds, once.",
        ", error=\"invalid_token\", error_description=\"The key does not hold\"");

    /// <summary>No key was sent where one is needed.</summary>
    public static KeyFault Missing { get; } = new("This call needs a key; send it as Authorization: Bearer. Whoever holds a key with scope admin can make one.", "");

    /// <summary>Open use was asked for from elsewhere.</summary>
    public static KeyFault Elsewhere { get; } = new("Without keys the service answers only requests that are sent from this machine and addressed to it, for example to 127.0.0.1, and neither through a proxy nor by a page of another site. Make a key first to let others in: keys create.", "");

    /// <summary>What to tell.</summary>
    public string Text { get; }

    /// <summary>Value of WWW-Authenticate (RFC 6750, RFC 9110).</summary>
    public string Challenge { get; }
}
