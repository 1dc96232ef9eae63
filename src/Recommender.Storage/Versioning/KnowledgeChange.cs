using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Recommender.Domain.Audit;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Storage.Versioning;

/// <summary>One value that differs between two versions of a catalogue or of a set of rules.</summary>
/// <param name="File">File that it stands in.</param>
/// <param name="Change">Where, and its values; a change at the root is a file that is new or gone.</param>
/// <param name="Text">The change in words.</param>
public sealed partial record KnowledgeChange(string File, JsonChange Change, string Text)
{
    private const int LongestValue = 60;

    /// <summary>Every difference, by file and place.</summary>
    public static IReadOnlyList<KnowledgeChange> Between(KnowledgeText before, KnowledgeText after)
    {
        var changes = new List<KnowledgeChange>();
        foreach (var path in before.Files.Keys.Union(after.Files.Keys).Order(StringComparer.Ordinal))
        {
            var (was, now) = (before.Files.GetValueOrDefault(path), after.Files.GetValueOrDefault(path));
            if (was is null || now is null)
            {
                changes.Add(new KnowledgeChange(path, new JsonChange([], Parsed(was), Parsed(now)), $"{path} is {(was is null ? "new" : "gone")}."));
            }
            else if (!was.AsSpan().SequenceEqual(now))
            {
                var (old, next) = (Parsed(was)!.Value, Parsed(now)!.Value);
                changes.AddRange(JsonDifference.Of(old, next, orderCounts: true).Select(c => new KnowledgeChange(path, c, Words(path, c, old, next))));
            }
        }

        return changes;
    }

    /// <summary>The text before with this change alone.</summary>
    public KnowledgeText Alone(KnowledgeText before)
    {
        if (Change.Steps.Count == 0)
        {
            return before.With([KeyValuePair.Create(File, Change.Is is { } added ? JsonSerializer.SerializeToUtf8Bytes(added) : null)]);
        }

        var file = JsonNode.Parse(before.Files[File])!;
        Change.Apply(file);
        return before.With([KeyValuePair.Create(File, (byte[]?)JsonSerializer.SerializeToUtf8Bytes(file))]);
    }

    /// <summary>Id of the exercise that it is about; null when it is about something else.</summary>
    public string? Exercise => File.StartsWith("exercises/", StringComparison.Ordinal) && Change.Steps is [_, { Name: { } id }, ..] ? id : null;

    private static string Words(string path, JsonChange change, JsonElement before, JsonElement after)
    {
        var steps = change.Steps.ToList();
        var (subject, rest) = steps is [{ Name: "exercises", Index: < 0 }, { Index: >= 0 } item, ..] && path.StartsWith("exercises/", StringComparison.Ordinal)
            ? (NameOf(item.Added ? after : before, item.Index), steps[2..])
            : (path, steps);
        var where = string.Join(", ", rest.Select(s => s.Index >= 0 && s.Name is null ? $"no. {s.Index + 1}" : s.Index >= 0 ? s.Name! : Spaced(s.Name!)).Prepend(subject));
        return change.Was is null ? $"{where}: new{(rest.Count == 0 ? "" : $", {Value(change.Is!.Value)}")}." : change.Is is null ? $"{where}: gone{(rest.Count == 0 ? "" : $", was {Value(change.Was.Value)}")}."
            : $"{where}: from {Value(change.Was.Value)} to {Value(change.Is.Value)}.";
    }

    private static string NameOf(JsonElement file, int index) => file.GetProperty("exercises")[index].GetProperty("name").GetString()!;

    /// <summary>camelCase as words.</summary>
    private static string Spaced(string name) => Humps().Replace(name, m => " " + m.Value.ToLowerInvariant());

    private static string Value(JsonElement value)
    {
        var text = value.ValueKind == JsonValueKind.String ? $"\"{value.GetString()}\"" : value.GetRawText();
        return text.Length <= LongestValue ? text : text[..LongestValue] + "…";
    }

    private static JsonElement? Parsed(byte[]? json)
    {
        if (json is null)
        {
            return null;
        }

        using var document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }

    [GeneratedRegex("[A-Z]")]
    private static partial Regex Humps();
}
