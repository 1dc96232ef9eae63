using System.Text.Json;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Answers.Wire;

/// <summary>Reads a request body strictly; what cannot be parsed is told by pointer, without a word about our types.</summary>
public static class RequestReader
{
    private const int LongestName = 60;

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
        catch (ArgumentException)
        {
            // Inside what is read as it stands, such as the exercises of a draft, the reader tells a second property of a name by this alone.
            fault = new Fault("", "duplicate-property", "a property stands twice in one object; give it once.");
            return null;
        }
    }

    /// <summary>Reads a body that has no such properties; one that stands there is told like any other unknown one.</summary>
    /// <typeparam name="T">Shape of the body, known to <see cref="WireJson"/>.</typeparam>
    /// <param name="utf8">The body.</param>
    /// <param name="unknown">Names at the top that this call does not know.</param>
    /// <param name="fault">What is wrong when null is given back.</param>
    public static T? ReadWithout<T>(ReadOnlySpan<byte> utf8, ReadOnlySpan<string> unknown, out Fault? fault) where T : class
    {
        if (Read<T>(utf8, out fault) is not { } value)
        {
            return null;
        }

        var reader = new Utf8JsonReader(utf8);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            foreach (var name in unknown)
            {
                if (reader.ValueTextEquals(name))
                {
                    fault = Unknown("/" + name);
                    return null;
                }
            }

            reader.Skip();
        }

        return value;
    }

    private static Fault Unknown(string pointer) => new(pointer, "unknown-property", $"\"{NameAt(pointer)}\" is not a property here; see /openapi/v1.json for those that are.");

    private static Fault Describe(JsonException e, bool empty)
    {
        if (empty)
        {
            return new Fault("", "not-json", "the body is empty; give a JSON object.");
        }

        // The reader gives no codes, so its message is matched; RequestReaderTests holds each of these against the runtime in use.
        var pointer = JsonPath.ToPointer(e.Path);
        if (e.Message.Contains("could not be mapped to any .NET member", StringComparison.Ordinal))
        {
            return Unknown(pointer);
        }

        if (e.Message.StartsWith("Duplicate propert", StringComparison.Ordinal))
        {
            return new Fault(pointer, "duplicate-property", $"\"{NameAt(pointer)}\" stands twice; give it once.");
        }

        return e.InnerException switch
        {
            JsonException => new Fault(pointer, "not-json", $"not JSON at line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}."),
            InvalidOperationException { Message: var why } when why.Contains("UTF-", StringComparison.Ordinal) => new Fault(pointer, "not-json", "the text is not Unicode; send UTF-8 without half characters."),
            FormatException => new Fault(pointer, "wrong-type", "the number does not fit; give a whole one where whole numbers are asked for, and no more digits than a measurement has."),
            _ => new Fault(pointer, "wrong-type", "the value has the wrong JSON type; see /openapi/v1.json for the right one."),
        };
    }

    private static string NameAt(string pointer)
    {
        var name = pointer[(pointer.LastIndexOf('/') + 1)..].Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal);
        return name.Length > LongestName ? name[..LongestName] + "..." : name;
    }
}
