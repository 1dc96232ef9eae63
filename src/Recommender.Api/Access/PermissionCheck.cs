using Recommender.Answers.Access;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;
using Recommender.Pages.SignIn;

namespace Recommender.Api.Access;

/// <summary>Lets a request through or answers it with 401 or 403, by the table of permissions.</summary>
/// <param name="next">What comes after.</param>
internal sealed class PermissionCheck(RequestDelegate next)
{
    /// <summary>Decides.</summary>
    public Task Invoke(HttpContext context)
    {
        if (context.Features.Get<KeyFault>() is { } fault)
        {
            return Refuse(context, fault);
        }

        // What is no route of ours (a wrong method, an unknown address, the document) does nothing for anybody.
        if (context.GetEndpoint() is not RouteEndpoint endpoint)
        {
            return next(context);
        }

        var permission = Permissions.Of(endpoint) ?? throw new InvalidOperationException($"Nothing says who may call {endpoint.RoutePattern.RawText}.");
        return !permission.KeyNeeded ? next(context)
            : context.CallerOrNull() is not { } caller ? Refuse(context, KeyFault.Missing)
            : caller.May(permission.Scopes) ? next(context)
            : Forbid(context, permission.Scopes, caller);
    }

    private static Task Refuse(HttpContext context, KeyFault fault)
    {
        context.Response.Headers.WWWAuthenticate = fault.Challenge;
        if (!PageResults.Wanted(context.Request))
        {
            return Problem.Of(ProblemTypes.KeyNeeded, fault.Text).ExecuteAsync(context);
        }

        if (fault == KeyFault.Missing && HttpMethods.IsGet(context.Request.Method))
        {
            context.Response.Headers.WWWAuthenticate = default;
            context.Response.StatusCode = StatusCodes.Status303SeeOther;
            context.Response.Headers.Location = SignInEndpoints.AddressFor(context.Request);
            return Task.CompletedTask;
        }

        return PageResults.Write(context, StatusCodes.Status401Unauthorized, "Sign in first",
            fault == KeyFault.Missing ? "You are not signed in, or your sign-in has ended. Nothing was recorded. Open the sign-in page in another tab, then press the button again here." : fault.Text);
    }

    private static Task Forbid(HttpContext context, Scopes needed, Caller caller)
    {
        var missing = string.Join(", ", ScopeWords.Of(needed & ~caller.Scopes));
        context.Response.Headers.WWWAuthenticate = $"Bearer realm=\"recommender\", error=\"insufficient_scope\", scope=\"{missing.Replace(",", "", StringComparison.Ordinal)}\"";
        return PageResults.Wanted(context.Request)
            ? PageResults.Write(context, StatusCodes.Status403Forbidden, "Not with this key",
                $"This page needs a key with scope {missing}; the one that you signed in with has {string.Join(", ", ScopeWords.Of(caller.Scopes))}. Whoever looks after keys in your club can make one that has it.")
            : Problem.Of(ProblemTypes.ScopeMissing, $"This call needs scope {missing}; the key has {string.Join(", ", ScopeWords.Of(caller.Scopes))}. Send a key that has it.").ExecuteAsync(context);
    }
}
