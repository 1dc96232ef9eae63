using Microsoft.AspNetCore.Http;
using Access = Recommender.Answers.Access;

namespace Recommender.Pages.Hosting;

/// <summary>Who sent a request: the one place that API and pages ask.</summary>
public static class CallerOfRequest
{
    /// <summary>Who sent it.</summary>
    /// <exception cref="InvalidOperationException">Nobody is known; what asks for a caller must not be open.</exception>
    public static Access.Caller Caller(this HttpContext context) => context.CallerOrNull() ?? throw new InvalidOperationException("Nobody is known to have sent this request.");

    /// <summary>Who sent it; null where nobody is known.</summary>
    public static Access.Caller? CallerOrNull(this HttpContext context) => context.Features.Get<Access.Caller>();

    /// <summary>Says who sent it.</summary>
    public static void SetCaller(this HttpContext context, Access.Caller caller) => context.Features.Set(caller);
}
