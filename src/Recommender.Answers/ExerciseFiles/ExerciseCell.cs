using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Recommender.Answers.ExerciseFiles;

/// <summary>How one kind of value stands in one cell of a spreadsheet, and is read back.</summary>
/// <param name="Write">The value as text; null is an empty cell.</param>
/// <param name="Read">The text as a value; null is left out. Throws <see cref="FormatException"/> with what would be right.</param>
public sealed partial record ExerciseCell(Func<JsonNode?, string> Write, Func<string, JsonNode?> Read)
{
    private const string Between = " | ";
    private const string Together = " + ";
    private const string Nothing = "nothing";

    /// <summary>Plain text.</summary>
    public static ExerciseCell Text { get; } = new(v => (string?)v ?? "", t => JsonValue.Create(t));

    /// <summary>A number with a decimal point.</summary>
    public static ExerciseCell Number { get; } = new(v => v?.ToJsonString() ?? "", t => JsonValue.Create(NumberOf(t)));

    /// <summary>true or false, in any case, since spreadsheets shout.</summary>
    public static ExerciseCell Flag { get; } = new(v => v?.ToJsonString() ?? "", t => JsonValue.Create(
        bool.TryParse(t, out var flag) ? flag : throw new FormatException($"\"{t}\" is neither true nor false.")));

    /// <summary>Texts with a bar between them; a bar inside a text is written \|.</summary>
    public static ExerciseCell Texts { get; } = new(
        v => string.Join(Between, v!.AsArray().Select(text => ((string)text!).Replace("\\", "\\\\", StringComparison.Ordinal).Replace("|", "\\|", StringComparison.Ordinal))),
        t => new JsonArray([.. Split(t).Select(text => (JsonNode)text)]));

    /// <summary>Alternatives with a bar between them, things needed together with a plus; the word nothing is the alternative that needs nothing.</summary>
    public static ExerciseCell Sets { get; } = new(
        v => string.Join(Between, v!.AsArray().Select(set => set!.AsArray().Count == 0 ? Nothing : string.Join(Together, set.AsArray().Select(id => (string)id!)))),
        t => new JsonArray([.. Split(t).Select(set => (JsonNode)(set == Nothing ? [] : new JsonArray([.. set.Split('+', StringSplitOptions.TrimEntries).Select(id => (JsonNode)id)])))]));

    /// <summary>Rating, basis and source: "2 published distefano-2009"; a bare rating is common practice.</summary>
    public static ExerciseCell Rating { get; } = new(
        v => v is null ? "" : $"{v["value"]!.ToJsonString()} {Based(v)}",
        t => t.Length == 0 ? null : RatingForm().Match(t) is { Success: true } m
            ? WithBasis(new JsonObject { ["value"] = NumberOf(m.Groups["value"].Value) }, m)
            : throw new FormatException($"\"{t}\" is no rating; write it like \"2 common-practice\" or \"3 published smith-2020\", or leave the cell empty."));

    /// <summary>Load, interval, basis and source: "5.6 (4.7-6.7) common-practice"; a bare load is common practice, but the interval must be given.</summary>
    public static ExerciseCell Load { get; } = new(
        v => v is null ? "" : $"{v["value"]!.ToJsonString()} ({v["low"]!.ToJsonString()}-{v["high"]!.ToJsonString()}) {Based(v)}",
        t => t.Length == 0 ? null : LoadForm().Match(t) is { Success: true } m
            ? WithBasis(new JsonObject { ["value"] = NumberOf(m.Groups["value"].Value), ["low"] = NumberOf(m.Groups["low"].Value), ["high"] = NumberOf(m.Groups["high"].Value) }, m)
            : throw new FormatException($"\"{t}\" is no load; write it like \"5.6 (4.7-6.7) common-practice\", value, interval and basis, or leave the cell empty."));

    private static string Based(JsonNode node) => (string?)node["source"] is { } source ? $"{(string)node["basis"]!} {source}" : (string)node["basis"]!;

    private static JsonObject WithBasis(JsonObject node, Match match)
    {
        node["basis"] = match.Groups["basis"] is { Success: true, Value: var basis } ? basis : "common-practice";
        node["source"] = match.Groups["source"] is { Success: true, Value: var source } ? source : null;
        return node;
    }

    private static decimal NumberOf(string text) =>
        decimal.TryParse(text, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new FormatException($"\"{text}\" is not a number; write it with a decimal point, like 2.5.");

    private static List<string> Split(string text)
    {
        if (text.Length == 0)
        {
            return [];
        }

        var parts = new List<string>();
        var part = new StringBuilder();
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\\' && i + 1 < text.Length)
            {
                part.Append(text[++i]);
            }
            else if (text[i] == '|')
            {
                parts.Add(part.ToString().Trim());
                part.Clear();
            }
            else
            {
                part.Append(text[i]);
            }
        }

        parts.Add(part.ToString().Trim());
        return parts;
    }

    [GeneratedRegex(@"^(?<value>[-0-9.]+)(?: +(?<basis>[a-z-]+)(?: +(?<source>[a-z0-9-]+))?)?$", RegexOptions.ExplicitCapture)]
    private static partial Regex RatingForm();

    [GeneratedRegex(@"^(?<value>[-0-9.]+) *\((?<low>[0-9.]+) *- *(?<high>[0-9.]+)\)(?: +(?<basis>[a-z-]+)(?: +(?<source>[a-z0-9-]+))?)?$", RegexOptions.ExplicitCapture)]
    private static partial Regex LoadForm();
}
