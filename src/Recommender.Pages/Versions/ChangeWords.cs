using System.Text.Json;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Decisions;
using Recommender.Pages.Words;
using Recommender.Storage.Versioning;

namespace Recommender.Pages.Versions;

/// <summary>A change between two versions as staff read it: the exercise or file that it is about, and what becomes of which number.</summary>
internal static class ChangeWords
{
    private const int Longest = 120;

    /// <summary>The exercise or the file.</summary>
    public static string Subject(KnowledgeChange change, Edition edition) =>
        change.Exercise is { } id ? edition.Catalogue.Find(id)?.Name ?? id : change.File;

    /// <summary>What changes, without its subject.</summary>
    public static string Said(KnowledgeChange change, Edition edition)
    {
        var words = edition.Catalogue.Vocabulary;
        var steps = change.Change.Steps.Skip(change.Exercise is null ? 0 : 2).Select(s => s.Name ?? s.Token).ToList();
        var where = steps switch
        {
            [] => "",
            ["qualities", var quality, .. var rest] => $"rating for {Say.InSentence(words.Qualities, quality)}{Rest(rest)}",
            ["tissueLoad", var region, .. var rest] => $"load on the {Say.InSentence(words.Regions, region)}{Rest(rest)}",
            _ => string.Join(", ", steps.Select(s => NumberWords.Label(s, words))),
        };
        var what = (change.Change.Was, change.Change.Is) switch
        {
            (null, { } now) => steps.Count == 0 ? "new" : $"new, {Value(now)}",
            ({ } was, null) => steps.Count == 0 ? "gone" : $"gone, was {Value(was)}",
            ({ } was, { } now) => $"from {Value(was)} to {Value(now)}",
            _ => "the same",
        };
        var sentence = where.Length == 0 ? what : $"{where}: {what}";
        return char.ToUpperInvariant(sentence[0]) + sentence[1..] + ".";

        // A number's own value needs no name; its interval and its basis do.
        string Rest(List<string> rest) => rest is [] or ["value"] ? "" : ", " + string.Join(", ", rest.Select(r => NumberWords.Label(r, words)));
    }

    private static string Value(JsonElement value)
    {
        var text = value.ValueKind switch
        {
            JsonValueKind.String => $"“{value.GetString()}”",
            JsonValueKind.Number => Say.Number(value.GetDecimal()),
            JsonValueKind.True => "yes",
            JsonValueKind.False => "no",
            JsonValueKind.Array => value.GetArrayLength() == 0 ? "none" : string.Join(", ", value.EnumerateArray().Select(Value)),
            JsonValueKind.Object when value.TryGetProperty("value", out var number) => string.Join(", ", new[] { Value(number), Text(value, "basis"), Text(value, "source") }.Where(t => t.Length > 0)),
            _ => value.GetRawText(),
        };
        return text.Length <= Longest ? text : text[..Longest] + "…";
    }

    private static string Text(JsonElement value, string name) => value.TryGetProperty(name, out var text) && text.ValueKind == JsonValueKind.String ? text.GetString()! : "";
}
