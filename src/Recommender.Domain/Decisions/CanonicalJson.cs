using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Recommender.Domain.Decisions;

/// <summary>JSON in the one form that a hash can be taken of: no white space, members sorted by UTF-16 code units, numbers as the shortest double.</summary>
/// <remarks>Source: RFC 8785 (JSON Canonicalization Scheme), sections 3.2.2 and 3.2.3; tested on the RFC's own examples.</remarks>
public static class CanonicalJson
{
    private const int MaxDepth = 64;

    /// <summary>Smallest magnitude that is written without an exponent, as a power of ten, and the first that is not.</summary>
    private const int SmallestPlain = -6;
    private const int FirstExponential = 21;

    /// <summary>What a string does not hold as it is.</summary>
    private static readonly SearchValues<char> Escaped = SearchValues.Create([.. Enumerable.Range(0, ' ').Select(c => (char)c), '"', '\\']);

    /// <summary>The canonical form of a JSON text.</summary>
    /// <param name="json">One JSON value, UTF-8. A member that stands twice is refused.</param>
    /// <exception cref="JsonException">It is not JSON, a member stands twice, a number is beyond a double, or a string is no Unicode text.</exception>
    public static byte[] Of(ReadOnlyMemory<byte> json)
    {
        try
        {
            using var document = JsonDocument.Parse(json, new JsonDocumentOptions { MaxDepth = MaxDepth, AllowDuplicateProperties = false });
            var output = new ArrayBufferWriter<byte>(json.Length + 16);
            Write(document.RootElement, output);
            return output.WrittenSpan.ToArray();
        }
        catch (InvalidOperationException e)
        {
            throw new JsonException("a string holds half a surrogate pair, which is no Unicode text.", e);
        }
    }

    /// <summary>Writes the canonical form of a value.</summary>
    /// <inheritdoc cref="Of"/>
    internal static void Write(JsonElement value, IBufferWriter<byte> output)
    {
        switch (value.ValueKind)
        {
            case JsonValueKind.Object:
                WriteObject(value, output);
                break;
            case JsonValueKind.Array:
                output.Write("["u8);
                var first = true;
                foreach (var item in value.EnumerateArray())
                {
                    output.Write(first ? ""u8 : ","u8);
                    Write(item, output);
                    first = false;
                }

                output.Write("]"u8);
                break;
            case JsonValueKind.String:
                Write(value.GetString()!, output);
                break;
            case JsonValueKind.Number:
                WriteNumber(value, output);
                break;
            default:
                output.Write(value.ValueKind == JsonValueKind.True ? "true"u8 : value.ValueKind == JsonValueKind.False ? "false"u8 : "null"u8);
                break;
        }
    }

    /// <summary>Writes a string: only the quotation mark, the backslash and control characters are escaped.</summary>
    internal static void Write(string text, IBufferWriter<byte> output)
    {
        output.Write("\""u8);
        var rest = text.AsSpan();
        for (var at = rest.IndexOfAny(Escaped); at >= 0; at = rest.IndexOfAny(Escaped))
        {
            Utf8(rest[..at], output);
            output.Write(Encoding.ASCII.GetBytes(Escape(rest[at])));
            rest = rest[(at + 1)..];
        }

        Utf8(rest, output);
        output.Write("\""u8);
    }

    private static void WriteObject(JsonElement value, IBufferWriter<byte> output)
    {
        var count = value.GetPropertyCount();
        var (names, values, order) = (new string[count], new JsonElement[count], new int[count]);
        var (i, sorted) = (0, true);
        foreach (var member in value.EnumerateObject())
        {
            (names[i], values[i], order[i]) = (member.Name, member.Value, i);
            sorted &= i == 0 || string.CompareOrdinal(names[i - 1], names[i]) < 0;
            i++;
        }

        if (!sorted)
        {
            Array.Sort(names, order, StringComparer.Ordinal);
        }

        output.Write("{"u8);
        for (i = 0; i < count; i++)
        {
            output.Write(i == 0 ? ""u8 : ","u8);
            Write(names[i], output);
            output.Write(":"u8);
            Write(values[order[i]], output);
        }

        output.Write("}"u8);
    }

    /// <summary>A number as ECMAScript writes it (ECMA-262, Number::toString), which RFC 8785 section 3.2.2.3 asks for.</summary>
    private static void WriteNumber(JsonElement value, IBufferWriter<byte> output)
    {
        var number = value.GetDouble();
        if (!double.IsFinite(number))
        {
            throw new JsonException($"{value.GetRawText()} is beyond what a double holds.");
        }

        // The runtime finds the shortest digits that read back as the same double; only where the point stands differs, and only where it writes an exponent.
        Span<byte> shortest = stackalloc byte[32];
        var written = number == 0 ? "0"u8 : number.TryFormat(shortest, out var length, "R", CultureInfo.InvariantCulture) ? shortest[..length] : throw new InvalidOperationException("A double has at most 24 characters.");
        output.Write(written.Contains((byte)'E') ? Encoding.ASCII.GetBytes(Number(number, Encoding.ASCII.GetString(written))) : written);
    }

    private static string Number(double number, string written)
    {
        var parts = written.TrimStart('-').Split('E');
        var point = parts[0].IndexOf('.', StringComparison.Ordinal) is var at and >= 0 ? at : parts[0].Length;
        var digits = parts[0].Replace(".", "", StringComparison.Ordinal);
        return (number < 0 ? "-" : "") + Placed(digits.TrimEnd('0'), point - 1 + int.Parse(parts[1], CultureInfo.InvariantCulture));
    }

    private static string Placed(string digits, int exponent) => exponent switch
    {
        >= FirstExponential or < SmallestPlain => $"{digits[0]}{(digits.Length > 1 ? "." + digits[1..] : "")}e{(exponent < 0 ? '-' : '+')}{Math.Abs(exponent)}",
        < 0 => "0." + new string('0', -exponent - 1) + digits,
        _ when digits.Length <= exponent + 1 => digits.PadRight(exponent + 1, '0'),
        _ => $"{digits[..(exponent + 1)]}.{digits[(exponent + 1)..]}",
    };

    private static string Escape(char c) => c switch
    {
        '"' => "\\\"",
        '\\' => "\\\\",
        '\b' => "\\b",
        '\t' => "\\t",
        '\n' => "\\n",
        '\f' => "\\f",
        '\r' => "\\r",
        _ => $"\\u{(int)c:x4}",
    };

    private static void Utf8(ReadOnlySpan<char> text, IBufferWriter<byte> output)
    {
        var span = output.GetSpan(Encoding.UTF8.GetMaxByteCount(text.Length));
        output.Advance(Encoding.UTF8.GetBytes(text, span));
    }
}
