using System.Text;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>The path in which the JSON reader tells a place, as a JSON Pointer.</summary>
public static class JsonPath
{
    /// <summary><c>$.a[0]['b/c']</c> as <c>/a/0/b~1c</c>; no path is the whole body.</summary>
    /// <param name="path">Path of a <see cref="System.Text.Json.JsonException"/>. It quotes odd names without escaping them: a quoted name ends where another part or nothing follows.</param>
    public static string ToPointer(string? path)
    {
        var pointer = new StringBuilder();
        var i = 1;
        while (path is not null && i < path.Length)
        {
            var (start, end, next) = path[i] == '.' ? Plain(path, i) : path.AsSpan(i).StartsWith("['") ? Quoted(path, i) : Index(path, i);
            pointer.Append('/').Append(path[start..end].Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal));
            i = next;
        }

        return pointer.ToString();
    }

    private static (int Start, int End, int Next) Plain(string path, int i)
    {
        var length = path.AsSpan(i + 1).IndexOfAny('.', '[');
        var end = length < 0 ? path.Length : i + 1 + length;
        return (i + 1, end, end);
    }

    private static (int Start, int End, int Next) Quoted(string path, int i)
    {
        var end = i + 2;
        do
        {
            end = path.IndexOf("']", end + 1, StringComparison.Ordinal);
        }
        while (end >= 0 && end + 2 < path.Length && path[end + 2] is not ('.' or '['));

        return end < 0 ? (i + 2, path.Length, path.Length) : (i + 2, end, end + 2);
    }

    private static (int Start, int End, int Next) Index(string path, int i)
    {
        var end = path.IndexOf(']', i);
        return end < 0 ? (i + 1, path.Length, path.Length) : (i + 1, end, end + 1);
    }
}
