using System.Net;
using Microsoft.Net.Http.Headers;

namespace Recommender.Api.Access;

/// <summary>Which requests are let in without a key while none was ever made.</summary>
internal static class OpenUse
{
    /// <summary>What proxies add, by how the name begins; X-Original- stands where the word of a known proxy has been taken already.</summary>
    private static readonly string[] Beginnings = ["X-Forwarded", "X-Original-"];

    /// <summary>And by how it ends, such as X-Real-IP: there is no one name for the sender's address.</summary>
    private static readonly string[] Ends = ["-Real-IP", "-Client-IP", "-Connecting-IP"];

    /// <summary>The names that have a standard (RFC 7239, RFC 9110).</summary>
    private static readonly string[] Names = ["Forwarded", "Via"];

    /// <summary>
    /// Whether a request was sent from this machine and addressed to it by its own name. One that names another host, or none, came from a page whose name was pointed at this machine or from no browser;
    /// one that was forwarded came through a proxy, known or not; one that a page of another site sent was not meant by who sits here. Open use is for none of them.
    /// </summary>
    /// <remarks>A proxy that adds no header cannot be told from a program on this machine: whoever puts one in front makes a key first.</remarks>
    public static bool IsFromHere(HttpContext context)
    {
        var headers = context.Request.Headers;
        return context.Request.Host is { HasValue: true } host && IsHere(host.Host)
            && (context.Connection.RemoteIpAddress is not { } sender || IPAddress.IsLoopback(sender))
            && !headers.Keys.Any(IsOfProxy)
            && !headers["Sec-Fetch-Site"].Contains("cross-site", StringComparer.OrdinalIgnoreCase)
            && headers[HeaderNames.Origin].All(origin => Uri.TryCreate(origin, UriKind.Absolute, out var from) && IsHere(from.Host));
    }

    private static bool IsHere(string host) => host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host.Trim('[', ']'), out var named) && IPAddress.IsLoopback(named));

    private static bool IsOfProxy(string header) =>
        Names.Contains(header, StringComparer.OrdinalIgnoreCase)
        || Array.Exists(Beginnings, b => header.StartsWith(b, StringComparison.OrdinalIgnoreCase))
        || Array.Exists(Ends, e => header.EndsWith(e, StringComparison.OrdinalIgnoreCase));
}
