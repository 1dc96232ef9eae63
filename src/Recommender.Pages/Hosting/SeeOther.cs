using Microsoft.AspNetCore.Http;

namespace Recommender.Pages.Hosting;

/// <summary>303: what was posted is done; the result has an address of its own, so that going back or loading again posts nothing twice.</summary>
/// <param name="path">Path and query on this service, escaped: printable ASCII alone.</param>
internal sealed class SeeOther(string path) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
        httpContext.Response.Headers.Location = path;
        return Task.CompletedTask;
    }
}
