using Recommender.Answers.ExerciseFiles;

namespace Recommender.Api.Exercises;

/// <summary>A table as a file.</summary>
/// <param name="body">UTF-8 bytes without a byte order mark.</param>
/// <param name="next">Path and query of the next page, or null.</param>
public sealed class CsvBytes(ReadOnlyMemory<byte> body, string? next) : IResult
{
    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.ContentType = ExerciseCsv.MediaType + "; charset=utf-8; header=present";
        response.Headers.ContentDisposition = "attachment; filename=\"exercises.csv\"";
        if (next is not null)
        {
            response.Headers.Link = $"<{next}>; rel=\"next\"";
        }

        response.ContentLength = body.Length;
        return response.Body.WriteAsync(body, httpContext.RequestAborted).AsTask();
    }
}
