using System.Text.Json;

namespace Recommender.Domain.Audit;

/// <summary>
/// What differs between two JSON texts, value by value. Items of a list are paired by what they are known by (an id), so that one that is added or moves does not make all after it
/// differ; where nothing tells them apart they are paired by place, and lists of other lengths differ as a whole.
/// </summary>
public sealed class JsonDifference
{
    /// <summary>Members, or chains of members, that items are known by, the first that fits: it must be text in every item and tell them all apart.</summary>
    private static readonly string[][][] Keys =
    [
        [["id"]], [["exercise"]], [["exercise", "id"]], [["factor"]], [["quality"]], [["code"]], [["reason"]], [["pointer"]], [["region"]], [["region"], ["side"], ["loadingRate"]],
        [["event"]], [["eventGroup"]], [["kind"]], [["flag"]], [["stage"]], [["phase"]],
    ];

    private readonly bool orderCounts;
    private readonly List<JsonChange> changes = [];
    private readonly List<JsonStep> at = [];

    private JsonDifference(bool orderCounts) => this.orderCounts = orderCounts;

    /// <summary>The differences, in the order of the texts.</summary>
    /// <param name="before">Text before.</param>
    /// <param name="after">Text after.</param>
    /// <param name="orderCounts">Whether items that only changed places make their list differ; in rules the first that fits may win, in an answer a rank says it.</param>
    public static IReadOnlyList<JsonChange> Of(JsonElement before, JsonElement after, bool orderCounts)
    {
        var difference = new JsonDifference(orderCounts);
        difference.Compare(before, after);
        return difference.changes;
    }

    private void Compare(JsonElement before, JsonElement after)
    {
        if (before.ValueKind == JsonValueKind.Object && after.ValueKind == JsonValueKind.Object)
        {
            Members(before, after);
        }
        else if (before.ValueKind == JsonValueKind.Array && after.ValueKind == JsonValueKind.Array)
        {
            Items(before, after);
        }
        else if (!JsonElement.DeepEquals(before, after))
        {
            Add(before, after);
        }
    }

    private void Members(JsonElement before, JsonElement after)
    {
        foreach (var member in before.EnumerateObject())
        {
            Within(new JsonStep(member.Name), member.Value, after.TryGetProperty(member.Name, out var now) ? now : null);
        }

        foreach (var member in after.EnumerateObject().Where(m => !before.TryGetProperty(m.Name, out _)))
        {
            Within(new JsonStep(member.Name), null, member.Value);
        }
    }

    private void Items(JsonElement before, JsonElement after)
    {
        var (were, are) = (before.EnumerateArray().ToList(), after.EnumerateArray().ToList());
        if (Keys.FirstOrDefault(k => Tells(k, were) && Tells(k, are)) is { } key && were.Count + are.Count > 0)
        {
            Keyed(key, before, after, were, are);
        }
        else if (were.Count == are.Count && were.Concat(are).All(i => i.ValueKind == JsonValueKind.Object))
        {
            for (var i = 0; i < were.Count; i++)
            {
                Within(new JsonStep(null, i), were[i], are[i]);
            }
        }
        else if (!JsonElement.DeepEquals(before, after))
        {
            Add(before, after);
        }
    }

    private void Keyed(string[][] key, JsonElement before, JsonElement after, List<JsonElement> were, List<JsonElement> are)
    {
        var (old, now) = (were.Select(i => KeyOf(key, i)!).ToList(), are.Select(i => KeyOf(key, i)!).ToList());
        if (orderCounts && !old.Where(now.Contains).SequenceEqual(now.Where(old.Contains)))
        {
            Add(before, after);
            return;
        }

        for (var i = 0; i < were.Count; i++)
        {
            var place = now.IndexOf(old[i]);
            Within(new JsonStep(old[i], i), were[i], place < 0 ? null : are[place]);
        }

        for (var i = 0; i < are.Count; i++)
        {
            if (!old.Contains(now[i]))
            {
                Within(new JsonStep(now[i], i, Added: true), null, are[i]);
            }
        }
    }

    private void Within(JsonStep step, JsonElement? before, JsonElement? after)
    {
        at.Add(step);
        if (before is { } was && after is { } now)
        {
            Compare(was, now);
        }
        else
        {
            Add(before, after);
        }

        at.RemoveAt(at.Count - 1);
    }

    private void Add(JsonElement? before, JsonElement? after) => changes.Add(new JsonChange([.. at], before?.Clone(), after?.Clone()));

    private static bool Tells(string[][] key, List<JsonElement> items)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        return items.All(i => KeyOf(key, i) is { } id && seen.Add(id));
    }

    private static string? KeyOf(string[][] key, JsonElement item)
    {
        var parts = key.Select(path => path.Aggregate((JsonElement?)item, (e, name) => e is { ValueKind: JsonValueKind.Object } o && o.TryGetProperty(name, out var inner) ? inner : null));
        var texts = parts.Select(p => p is { ValueKind: JsonValueKind.String } text ? text.GetString() : null).ToList();
        return texts.Contains(null) ? null : string.Join(' ', texts);
    }
}
