using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Recommender.Domain.Audit;

/// <summary>A step into a JSON text: a member of an object, or an item of a list.</summary>
/// <param name="Name">Member's name, or what the item is known by (its id); null for an item known by its place alone.</param>
/// <param name="Index">Place of the item in its list, in the text before where it stands there, else in the text after; -1 for a member.</param>
/// <param name="Added">Whether the item stands in the text after alone.</param>
public readonly record struct JsonStep(string? Name, int Index = -1, bool Added = false)
{
    /// <summary>The step as a token of a JSON Pointer (RFC 6901).</summary>
    public string Token => Index >= 0 ? Index.ToString(CultureInfo.InvariantCulture)
        : Name!.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}

/// <summary>One value that differs between two JSON texts.</summary>
/// <param name="Steps">Where it stands.</param>
/// <param name="Was">Value in the text before; null when it is not there.</param>
/// <param name="Is">Value in the text after; null when it is not there.</param>
public sealed record JsonChange(IReadOnlyList<JsonStep> Steps, JsonElement? Was, JsonElement? Is)
{
    /// <summary>JSON Pointer into the text before; for an item that was added, into the text after.</summary>
    public string Pointer => string.Concat(Steps.Select(s => "/" + s.Token));

    /// <summary>Where it stands in names and ids, which do not move when something is added above.</summary>
    public string Place => string.Concat(Steps.Select(s => "/" + (s.Name ?? s.Token)));

    /// <summary>Makes this change alone in the text before.</summary>
    /// <param name="before">A copy of the text before; it is changed.</param>
    public void Apply(JsonNode before)
    {
        var at = before;
        foreach (var step in Steps.SkipLast(1))
        {
            at = step.Index >= 0 ? at[step.Index]! : at[step.Name!]!;
        }

        var last = Steps[^1];
        var value = Is is { } now ? JsonNode.Parse(now.GetRawText()) : null;
        switch (at)
        {
            case JsonObject members when Is is null:
                members.Remove(last.Name!);
                break;
            case JsonObject members:
                members[last.Name!] = value;
                break;
            case JsonArray items when Is is null:
                items.RemoveAt(last.Index);
                break;
            case JsonArray items when Was is null:
                items.Insert(Math.Min(last.Index, items.Count), value);
                break;
            case JsonArray items:
                items[last.Index] = value;
                break;
            default:
                throw new InvalidOperationException("A change stands in an object or a list.");
        }
    }
}
