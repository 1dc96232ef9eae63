using Microsoft.AspNetCore.Http;
using Access = Recommender.Answers.Access;

namespace Recommender.Pages.Hosting;

/// <summary>Who sent a request: the one place that API and pages ask.</summary>
public static class CallerOfRequest
{
    /// <summary>Who sent it.</summary>
    public static Access.Caller Caller(this HttpContext context) => context.Features.Get<Access.Caller>() ?? Access.Caller.Local;

    /// <summary>Says who sent it.</summary>
    public static void SetCaller(this HttpContext context, Access.Caller caller) => context.Features.Set(caller);
}
