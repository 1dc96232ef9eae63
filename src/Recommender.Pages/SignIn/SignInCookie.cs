using System.Net;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers.Access;

namespace Recommender.Pages.SignIn;

/// <summary>
/// The cookie of a sign-in: which key it was done with, and a mark of its secret, protected so that only this service can make or read it. It ends after some hours, when the key ends, and when its secret is
/// changed. The key itself is not in it.
/// </summary>
public static class SignInCookie
{
    /// <summary>Name of the cookie.</summary>
    public const string Name = "sign-in";

    /// <summary>How long a sign-in lasts: a long day at the track.</summary>
    public static readonly TimeSpan Life = TimeSpan.FromHours(12);

    private const string Purpose = "sign-in.1";

    /// <summary>Whom the sign-in of a request stands for; null when there is none that holds.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public static async ValueTask<Caller?> SignedIn(this HttpContext context, AccessKeys keys)
    {
        if (context.Request.Cookies[Name] is not { Length: > 0 } sent)
        {
            return null;
        }

        try
        {
            return Protector(context).Unprotect(sent).Split(' ') is [var key, var mark] ? await keys.Still(key, mark).ConfigureAwait(false) : null;
        }
        catch (CryptographicException)
        {
            // Made up, cut short, over, or protected by keys that are gone: all the same to the one who sends it.
            return null;
        }
    }

    /// <summary>Sets the cookie.</summary>
    /// <exception cref="Storage.Decisions.StoreUnavailableException">The store cannot be read.</exception>
    internal static async Task Set(HttpContext context, AccessKeys keys, string keyId)
    {
        var mark = await keys.Mark(keyId).ConfigureAwait(false);
        context.Response.Cookies.Append(Name, Protector(context).Protect($"{keyId} {mark}", Life), Options(context, Life));
    }

    /// <summary>Takes the cookie away.</summary>
    internal static void Remove(HttpContext context) => context.Response.Cookies.Delete(Name, Options(context, null));

    /// <summary>Whether the service was addressed on this machine itself.</summary>
    internal static bool IsLoopback(HttpRequest request) => request.Host.Host == "localhost" || (IPAddress.TryParse(request.Host.Host.Trim('[', ']'), out var ip) && IPAddress.IsLoopback(ip));

    private static CookieOptions Options(HttpContext context, TimeSpan? life) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Strict,
        // A proxy may have taken https away on the inside; off loopback the cookie never travels without it.
        Secure = context.Request.IsHttps || !IsLoopback(context.Request),
        Path = "/",
        MaxAge = life,
    };

    private static ITimeLimitedDataProtector Protector(HttpContext context) =>
        context.RequestServices.GetRequiredService<IDataProtectionProvider>().CreateProtector(Purpose).ToTimeLimitedDataProtector();
}
