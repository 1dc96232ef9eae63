using System.Buffers;
using Recommender.Api.Problems;

namespace Recommender.Api.Hosting;

/// <summary>Reads a JSON body whole, within a limit, whatever its length header says.</summary>
public static class BodyReader
{
    /// <summary>Largest body of a single request, bytes.</summary>
    public const int SingleLimit = 256 * 1024;

    /// <summary>Largest body of a batch, bytes.</summary>
    public const int BatchLimit = 4 * 1024 * 1024;

    /// <summary>The body, or a problem.</summary>
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
        while (true)
        {
            var read = await reader.ReadAsync(request.HttpContext.RequestAborted).ConfigureAwait(false);
            if (read.Buffer.Length > limit)
            {
                reader.AdvanceTo(read.Buffer.End);
                return ([], TooLarge(limit));
            }

            if (read.IsCompleted)
            {
                var body = read.Buffer.ToArray();
                reader.AdvanceTo(read.Buffer.End);
                return (body, null);
            }

            reader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        }
    }

    private static Problem TooLarge(int limit) => Problem.Of(ProblemTypes.TooLarge, $"The body is larger than {limit / 1024} KB; send a smaller one.");
}
