namespace Recommender.Domain.Requests;

/// <summary>How faults name what was sent.</summary>
internal static class FaultText
{
    private const int LongestId = 60;

    /// <summary>An id in quotation marks, cut where it is long.</summary>
    public static string Quote(string id) => $"\"{(id.Length > LongestId ? id[..LongestId] + "..." : id)}\"";

    /// <summary>A name as a part of a JSON Pointer (RFC 6901).</summary>
    public static string Escape(string key) => key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}
