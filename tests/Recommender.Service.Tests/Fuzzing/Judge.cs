using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using CsvHelper;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>
/// Whether an answer is right for any request at all: never a 5xx, a status and a media type that the document lists, a body that keeps its schema, problems in
/// RFC 9457's form without internals, Allow beside a 405 (RFC 9110, 15.5.6), tables without a cell that a spreadsheet would run, and scores that add up.
/// </summary>
/// <param name="document">The document.</param>
public sealed partial class Judge(ApiDocument document)
{
    /// <summary>Media type of a body of one JSON value a line.</summary>
    public const string Lines = "application/x-ndjson";

    /// <summary>What is wrong; null when nothing is.</summary>
    public string? Fault(FuzzCase asked, HttpResponseMessage answer, byte[] body)
    {
        var status = (int)answer.StatusCode;
        var media = answer.Content.Headers.ContentType?.MediaType;
        if (status >= 500)
        {
            return $"{status}";
        }

        if (asked.MustRefuse && status < 400)
        {
            return $"{status}: it was taken, and nothing but a refusal is right";
        }

        if (asked.Making == Making.Valid && asked.Body is not null && status is 400 or 405 or 413 or 415)
        {
            return $"{status}: the document allows what was sent";
        }

        if (asked.Method == "HEAD")
        {
            return body.Length > 0 ? "a HEAD was answered with a body" : null;
        }

        if (status is 405 && !answer.Content.Headers.Contains("Allow"))
        {
            return "405 without Allow";
        }

        // What breaks HTTP itself is refused before the service sees it, with a bare status and the connection closed.
        if ((asked.Making == Making.Broken || asked.Target.Contains("%00", StringComparison.Ordinal)) && body.Length == 0 && answer.Headers.ConnectionClose == true && status is 400 or 413 or 414 or 431)
        {
            return null;
        }

        // Where no call is, a browser gets a page.
        if (asked.Elsewhere && media == "text/html" && asked.Headers.Contains(("Accept", "text/html")))
        {
            return null;
        }

        if (status >= 400 && Problem(status, media, body) is { } problem)
        {
            return problem;
        }

        if (asked.Elsewhere || asked.Method is "OPTIONS")
        {
            return null;
        }

        return !asked.Operation.Answers.TryGetValue(status, out var documented) ? $"{status}: the document does not list it"
            : documented.Count == 0 ? body.Length > 0 ? $"{status} with a body, and the document lists none" : null
            : media is null || !documented.TryGetValue(media, out var schema) ? $"{status}: {media} is not listed"
            : media switch
            {
                "text/csv" => Table(body),
                Lines => Encoding.UTF8.GetString(body).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => Json(schema, Encoding.UTF8.GetBytes(line))).FirstOrDefault(f => f is not null),
                _ => Json(schema, body),
            };
    }

    private string? Problem(int status, string? media, byte[] body)
    {
        if (media != "application/problem+json")
        {
            return $"{status} as {media ?? "nothing"}: {Encoding.UTF8.GetString(body.AsSpan(0, Math.Min(200, body.Length)))}";
        }

        var text = Encoding.UTF8.GetString(body);
        using var parsed = JsonDocument.Parse(body);
        return ApiDocument.Faults(document.Problem, parsed.RootElement) is { Length: > 0 } faults ? $"{status} is no problem body: {faults}"
            : parsed.RootElement.GetProperty("status").GetInt32() != status ? $"{status} says {parsed.RootElement.GetProperty("status")}"
            : Internals().Match(text) is { Success: true } found && !text.Contains("System.Object", StringComparison.Ordinal) ? $"internals in a problem: {found.Value} in {text}"
            : null;
    }

    private static string? Json(Json.Schema.JsonSchema schema, byte[] body)
    {
        using var parsed = JsonDocument.Parse(body);
        return ApiDocument.Faults(schema, parsed.RootElement) is { Length: > 0 } faults ? $"the body breaks the document: {faults}" : Scores(parsed.RootElement);
    }

    /// <summary>The contributions of each pick sum to its score exactly.</summary>
    private static string? Scores(JsonElement answer)
    {
        if (answer.ValueKind != JsonValueKind.Object || !answer.TryGetProperty("picks", out var picks) || picks.ValueKind != JsonValueKind.Array)
        {
            return null;
        }

        foreach (var pick in picks.EnumerateArray())
        {
            if (pick.TryGetProperty("score", out var score) && pick.TryGetProperty("contributions", out var parts) && parts.EnumerateArray().Sum(c => c.GetProperty("points").GetDecimal()) != score.GetDecimal())
            {
                return $"the contributions of {pick.GetProperty("exercise")} do not add up to {score}";
            }
        }

        return null;
    }

    private static string? Table(byte[] body)
    {
        using var reader = CsvReader.FromText(Encoding.UTF8.GetString(body), CsvReaderOptions.Default with { Separator = ',', HasHeader = false });
        while (reader.Read())
        {
            foreach (var cell in Enumerable.Range(0, reader.FieldCount).Select(reader.GetString))
            {
                if (cell.FirstOrDefault() is '=' or '+' or '-' or '@' or '\t' or '\r' && !decimal.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _))
                {
                    return $"a spreadsheet would run the cell {cell}";
                }
            }
        }

        return null;
    }

    [GeneratedRegex(@"\bSystem\.|\bMicrosoft\.|Recommender\.(?!Api -- )|Sqlite|Exception\b|\bat [A-Z]\w+\.\w+\(|\.cs:line|Nullable`|Int32\b")]
    private static partial Regex Internals();
}
