using System.Buffers;
using System.IO.Pipelines;
using Microsoft.AspNetCore.Http.Features;
using Recommender.Api.Overload;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Hosting;

/// <summary>Reads a JSON body whole, within a limit, whatever its length header says.</summary>
public static class BodyReader
{
    /// <summary>Largest body of a single request, bytes.</summary>
    public const int SingleLimit = 256 * 1024;

    /// <summary>Largest body of a batch, bytes.</summary>
    public const int BatchLimit = 4 * 1024 * 1024;

    /// <summary>How long a body may take to come.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    /// <summary>The body, or a problem; with the body a place to work on it.</summary>
    /// <exception cref="BadHttpRequestException">It did not come within the time (408).</exception>
    public static async ValueTask<(byte[] Body, Problem? Problem)> Read(HttpRequest request, int limit)
    {
        if (!request.HasJsonContentType())
        {
            return ([], Problem.Of(ProblemTypes.UnsupportedMediaType, $"The content type is \"{request.ContentType}\"; send application/json."));
        }

        // A coding is not undone here, so nothing small can grow large (RFC 9110, 8.4: 415 where a coding is not accepted).
        if (request.Headers.ContentEncoding is { Count: > 0 } coding && coding.Any(c => !string.Equals(c, "identity", StringComparison.OrdinalIgnoreCase)))
        {
            request.HttpContext.Response.Headers.AcceptEncoding = "identity";
            return ([], Problem.Of(ProblemTypes.UnsupportedMediaType, "The body is sent in a content coding; send it without one."));
        }

        if (request.ContentLength > limit)
        {
            return ([], TooLarge(limit));
        }

        var reader = request.BodyReader;
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(request.HttpContext.RequestAborted);
        patience.CancelAfter(Patience);
        while (true)
        {
            ReadResult read;
            try
            {
                read = await reader.ReadAsync(patience.Token).ConfigureAwait(false);
            }
            catch (OperationCanceledException) when (!request.HttpContext.RequestAborted.IsCancellationRequested)
            {
                throw new BadHttpRequestException("The body did not come within the time.", StatusCodes.Status408RequestTimeout);
            }

            if (read.Buffer.Length > limit)
            {
                reader.AdvanceTo(read.Buffer.End);
                return ([], TooLarge(limit));
            }

            if (read.IsCompleted)
            {
                var body = read.Buffer.ToArray();
                reader.AdvanceTo(read.Buffer.End);
                return await Enters(request).ConfigureAwait(false) ? (body, null) : ([], Admission.Refusal);
            }

            reader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        }
    }

    /// <summary>The body of a call that may leave it out, null when it does; or a problem. Either way with a place to work.</summary>
    /// <inheritdoc cref="Read"/>
    public static async ValueTask<(byte[]? Body, Problem? Problem)> ReadOptional(HttpRequest request, int limit)
    {
        if (IsSent(request))
        {
            return await Read(request, limit).ConfigureAwait(false);
        }

        return await Enters(request).ConfigureAwait(false) ? (null, null) : (null, Admission.Refusal);
    }

    /// <summary>Whether a body comes, or is said to come: one in chunks has no length, and may have no type (RFC 9112, 6.3).</summary>
    private static bool IsSent(HttpRequest request) => request.ContentType is not null || request.ContentLength > 0
        || (request.ContentLength is null && request.HttpContext.Features.Get<IHttpRequestBodyDetectionFeature>() is { CanHaveBody: true });

    private static async ValueTask<bool> Enters(HttpRequest request) => request.HttpContext.Features.Get<IWorkGate>() is not { } gate || await gate.Enter().ConfigureAwait(false);

    private static Problem TooLarge(int limit) => Problem.Of(ProblemTypes.TooLarge, $"The body is larger than {limit / 1024} KB; send a smaller one.");
}
