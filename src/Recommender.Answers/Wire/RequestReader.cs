using System.Text;
using System.Text.Json;
using Recommender.Domain.Requests;

namespace Recommender.Answers.Wire;

/// <summary>Reads a request body strictly; what cannot be parsed is told by pointer, without a word about our types.</summary>
public static class RequestReader
{
    /// <summary>Reads a body.</summary>
    /// <typeparam name="T">Shape of the body, known to <see cref="WireJson"/>.</typeparam>
    /// <param name="utf8">The body.</param>
    /// <param name="fault">What is wrong when null is given back.</param>
    public static T? Read<T>(ReadOnlySpan<byte> utf8, out Fault? fault) where T : class
    {
        try
        {
            var value = (T?)JsonSerializer.Deserialize(utf8, WireJson.Strict.GetTypeInfo(typeof(T))!);
            fault = value is null ? new Fault("", "wrong-type", "the body is null; give a JSON object.") : null;
            return value;
        }
        catch (JsonException e)
        {
            fault = Describe(e, utf8.IsEmpty);
            return null;
        }
    }

    private static Fault Describe(JsonException e, bool empty)
    {
        if (empty)
        {
            return new Fault("", "not-json", "the body is empty; give a JSON object.");
        }

        var pointer = PointerOf(e.Path);
        // The reader gives no codes, so its message is matched; RequestReaderTests holds each of these against the runtime in use.
        if (e.Message.Contains("could not be mapped to any .NET member", StringComparison.Ordinal))
        {
            var name = Quoted(e.Message);
            return new Fault(Under(pointer, name), "unknown-property", $"\"{name}\" is not a property here; see /openapi/v1.json for those that are.");
        }

        if (e.Message.Contains("uplicate", StringComparison.Ordinal))
        {
            var name = Quoted(e.Message);
            return new Fault(Under(pointer, name), "duplicate-property", $"\"{name}\" stands twice; give it once.");
        }

        if (e.Message.Contains("maximum configured depth", StringComparison.Ordinal))
        {
            return new Fault(pointer, "too-deep", $"nested deeper than {WireJson.MaxDepth}; requests are flatter.");
        }

        return e.InnerException is JsonException or null && !e.Message.Contains("could not be converted", StringComparison.Ordinal)
            ? new Fault(pointer, "not-json", $"not JSON at line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}.")
            : new Fault(pointer, "wrong-type", "the value has the wrong JSON type; see /openapi/v1.json for the right one.");
    }

    private static string Under(string pointer, string name)
    {
        var last = "/" + Escape(name);
        return pointer.EndsWith(last, StringComparison.Ordinal) ? pointer : pointer + last;
    }

    private static string Quoted(string message)
    {
        var start = message.IndexOf('\'', StringComparison.Ordinal);
        var end = start < 0 ? -1 : message.IndexOf('\'', start + 1);
        var name = end < 0 ? "" : message[(start + 1)..end];
        return name.Length > 60 ? name[..60] + "..." : name;
    }

    /// <summary>$.a[0]['b c'] as /a/0/b c.</summary>
    private static string PointerOf(string? path)
    {
        var pointer = new StringBuilder();
        var i = 1;
        while (path is not null && i < path.Length)
        {
            string part;
            if (path[i] == '[' && i + 1 < path.Length && path[i + 1] == '\'')
            {
                var end = path.IndexOf("']", i, StringComparison.Ordinal);
                end = end < 0 ? path.Length : end;
                part = path[(i + 2)..end];
                i = end + 2;
            }
            else if (path[i] == '[')
            {
                var end = path.IndexOf(']', i);
                part = path[(i + 1)..end];
                i = end + 1;
            }
            else
            {
                var end = path.AsSpan(i + 1).IndexOfAny('.', '[');
                end = end < 0 ? path.Length : i + 1 + end;
                part = path[(i + 1)..end];
                i = end;
            }

            pointer.Append('/').Append(Escape(part));
        }

        return pointer.ToString();
    }

    private static string Escape(string key) => key.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}
