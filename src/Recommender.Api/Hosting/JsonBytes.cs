namespace Recommender.Api.Hosting;

/// <summary>JSON that is written as it is.</summary>
/// <param name="body">UTF-8 bytes.</param>
/// <param name="status">HTTP status.</param>
public sealed class JsonBytes(ReadOnlyMemory<byte> body, int status = StatusCodes.Status200OK) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = status;
        httpContext.Response.ContentType = "application/json; charset=utf-8";
        httpContext.Response.ContentLength = body.Length;
        return httpContext.Response.Body.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }
}
