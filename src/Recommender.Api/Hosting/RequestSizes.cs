using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Recommender.Api.Hosting;

/// <summary>What the server reads of a request at most, before any call looks at it.</summary>
internal static class RequestSizes
{
    private const int HeaderBytes = 16 * 1024;
    private const int Headers = 64;

    /// <summary>A form around the largest file.</summary>
    private const int Margin = 256 * 1024;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    /// <summary>Sets the limits.</summary>
    public static void Limit(KestrelServerOptions kestrel)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestHeadersTotalSize = HeaderBytes;
        kestrel.Limits.MaxRequestHeaderCount = Headers;
        kestrel.Limits.RequestHeadersTimeout = Patience;
        kestrel.Limits.MaxRequestBodySize = BodyReader.BatchLimit + Margin;
    }
}
