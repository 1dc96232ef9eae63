using System.Text.Json.Nodes;

namespace Recommender.Domain.Tests.Audit;

/// <summary>Edits JSON by pointer as CONTRACT words it: an absent list is set whole, a last part - appends, null takes out; objects on the way are made where they are absent. RFC 6901.</summary>
internal static class PointerEdits
{
    public static void Apply(JsonObject body, string pointer, JsonNode? from, JsonNode? to)
    {
        var parts = pointer[1..].Split('/').Select(p => p.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal)).ToArray();
        JsonNode at = body;
        foreach (var part in parts[..^1])
        {
            at = at is JsonArray list ? list[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]! : at[part] ??= new JsonObject();
        }

        switch (at, parts[^1])
        {
            case (JsonArray list, "-"):
                Assert.Null(from);
                list.Add(to);
                break;
            case (JsonArray list, var index):
                var i = int.Parse(index, System.Globalization.CultureInfo.InvariantCulture);
                Assert.NotNull(list[i]);
                if (to is null)
                {
                    list.RemoveAt(i);
                }
                else
                {
                    list[i] = to;
                }

                break;
            case (var place, var name):
                Assert.True(JsonNode.DeepEquals(place[name], from) || (place[name] is JsonValue number && from is not null && number.GetValue<object>().ToString() == from.ToString()), $"{pointer}: {place[name]} is not {from}");
                place[name] = to;
                break;
        }
    }
}
