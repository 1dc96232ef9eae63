using System.Text.Json;
using Recommender.Api.Hosting;
using Recommender.Domain.Requests;

namespace Recommender.Api.Problems;

/// <summary>A problem as an HTTP result.</summary>
public sealed class Problem : IResult
{
    private const int RetrySeconds = 5;
    private readonly ProblemType type;

    private Problem(ProblemType type, string detail, IReadOnlyList<ProblemError> errors)
    {
        this.type = type;
        Body = new ProblemBody($"/problems/{type.Code}", type.Title, type.Status, detail, errors);
    }

    /// <summary>The body.</summary>
    public ProblemBody Body { get; }

    /// <summary>A problem with a detail alone.</summary>
    public static Problem Of(ProblemType type, string detail) => new(type, detail, []);

    /// <summary>A problem made of faults.</summary>
    /// <param name="type">Kind.</param>
    /// <param name="faults">At least one.</param>
    public static Problem Of(ProblemType type, params IReadOnlyList<Fault> faults) =>
        new(type, faults.Count == 1 ? faults[0].Message : $"{faults.Count} values are wrong; each is listed.", [.. faults.Select(f => new ProblemError(f.Pointer, f.Code, f.Message))]);

    /// <summary>A problem made of faults that may be very many: the first so many are listed, and the detail says how many there are.</summary>
    /// <param name="type">Kind.</param>
    /// <param name="faults">At least one.</param>
    /// <param name="most">Most that are listed.</param>
    public static Problem OfMany(ProblemType type, IReadOnlyList<Fault> faults, int most) => faults.Count <= most ? Of(type, faults)
        : new(type, $"{faults.Count} values are wrong; the first {most} are listed.", [.. faults.Take(most).Select(f => new ProblemError(f.Pointer, f.Code, f.Message))]);

    /// <summary>Says when to come back, where that helps.</summary>
    internal void SetRetryAfter(HttpResponse response)
    {
        if (type.Status == StatusCodes.Status503ServiceUnavailable)
        {
            response.Headers.RetryAfter = RetrySeconds.ToString(System.Globalization.CultureInfo.InvariantCulture);
        }
    }

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = type.Status;
        httpContext.Response.ContentType = "application/problem+json";
        SetRetryAfter(httpContext.Response);
        return JsonSerializer.SerializeAsync(httpContext.Response.Body, Body, ApiJson.Default.ProblemBody, httpContext.RequestAborted);
    }
}
