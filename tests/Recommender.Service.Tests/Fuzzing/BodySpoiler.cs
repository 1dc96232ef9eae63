using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>Spoils a body: in one to three places so that it is still nearly valid, or as text so that nothing may be read from it.</summary>
public static class BodySpoiler
{
    private const int Kinds = 10;

    /// <summary>The body with one to three places changed, and whether nothing but a refusal is right.</summary>
    public static (byte[] Body, bool MustRefuse) Nearly(PCG random, JsonNode body)
    {
        var raw = new List<(string Placeholder, string Text)>();
        var mustRefuse = false;
        for (var i = 1 + random.Next(3); i > 0 && !mustRefuse; i--)
        {
            // What comes after could mend what must be refused, such as take away the first of two properties of one name.
            mustRefuse = SpoilOnce(random, body, raw);
        }

        var text = body.ToJsonString();
        foreach (var (placeholder, replacement) in raw)
        {
            // A place spoiled twice may have lost its first placeholder; then nothing sure is known.
            mustRefuse &= text.Contains(placeholder, StringComparison.Ordinal);
            text = text.Replace(placeholder, replacement, StringComparison.Ordinal);
        }

        return (Encoding.UTF8.GetBytes(text), mustRefuse);
    }

    /// <summary>Bytes that are no JSON object at all, or none that may be read.</summary>
    public static (byte[] Body, bool MustRefuse) Broken(PCG random, JsonNode? whole)
    {
        var body = Encoding.UTF8.GetBytes(whole?.ToJsonString() ?? "{\"a\":\"b\"}");
        var at = (int)random.Next((uint)body.Length);
        return random.Next(12) switch
        {
            0 => (body[..at], at > 0),
            1 => ([.. body[..at], 0xC3, 0x28, .. body[at..]], true),
            2 => ([.. body[..at], 0xED, 0xA0, 0x80, .. body[at..]], true),
            3 => ([.. body[..at], 0xC0, 0x80, .. body[at..]], true),
            4 => ([0xEF, 0xBB, 0xBF, .. body], false),
            5 => (Encoding.Unicode.GetBytes(Encoding.UTF8.GetString(body)), true),
            6 => (Nested(random, "[", "]"), true),
            7 => (Nested(random, "{\"athlete\":", "}"), true),
            8 => ([.. body, (byte)(random.Next(2) == 0 ? '}' : 'x')], true),
            9 => ([.. Enumerable.Repeat((byte)' ', 257 * 1024), .. body], false),
            10 => (Encoding.UTF8.GetBytes(HostileText.NotJson[random.Next((uint)HostileText.NotJson.Length)]), true),
            _ => (Encoding.UTF8.GetBytes(random.Next(3) switch { 0 => "null", 1 => "[]", _ => "\"text\"" }), true),
        };
    }

    /// <summary>Open brackets, closed or not, up to as many as a body holds.</summary>
    private static byte[] Nested(PCG random, string open, string close)
    {
        var depth = 65 << (int)random.Next(9);
        return Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(open, depth)) + "1" + (random.Next(2) == 0 ? string.Concat(Enumerable.Repeat(close, depth)) : ""));
    }

    private static bool SpoilOnce(PCG random, JsonNode body, List<(string Placeholder, string Text)> raw)
    {
        var places = Places(body).ToList();
        if (places.Count == 0)
        {
            return false;
        }

        var (parent, key) = places[(int)random.Next((uint)places.Count)];
        var mark = $"@@{raw.Count.ToString(CultureInfo.InvariantCulture)}@@";
        switch (random.Next(Kinds))
        {
            case 0 or 1:
                raw.Add(($"\"{mark}\"", HostileText.Values[random.Next((uint)HostileText.Values.Length)]));
                Put(parent, key, mark);
                return false;
            case 2:
                raw.Add(($"\"{mark}\"", HostileText.NotJson[random.Next((uint)HostileText.NotJson.Length)]));
                Put(parent, key, mark);
                return true;
            case 3 or 4:
                Put(parent, key, HostileText.All[random.Next((uint)HostileText.All.Length)]);
                return false;
            case 5:
                Remove(parent, key);
                return false;
            case 6 when parent is JsonObject shape:
                shape[random.Next(2) == 0 ? "colour" : HostileText.All[random.Next((uint)HostileText.All.Length)]] = 1;
                return false;
            case 7 when parent is JsonObject shape && key is string name:
                raw.Add(($"\"{mark}\"", JsonSerializer.Serialize(name)));
                shape[mark] = shape[name]?.DeepClone();
                return true;
            case 8:
                Put(parent, key, new string('x', 1 << (int)random.Next(17)));
                return false;
            case 9:
                var value = At(parent, key);
                Put(parent, key, new JsonArray([.. Enumerable.Range(0, 1 << (int)random.Next(12)).Select(_ => (value as JsonArray)?.FirstOrDefault()?.DeepClone() ?? value?.DeepClone())]));
                return false;
            default:
                Put(parent, key, random.Next(2) == 0 ? -1 : 1_000_000_000);
                return false;
        }
    }

    private static IEnumerable<(JsonNode Parent, object Key)> Places(JsonNode? node) => node switch
    {
        JsonObject shape => shape.ToList().SelectMany(p => Places(p.Value).Prepend((shape, (object)p.Key))),
        JsonArray list => Enumerable.Range(0, list.Count).SelectMany(i => Places(list[i]).Prepend((list, (object)i))),
        _ => [],
    };

    private static JsonNode? At(JsonNode parent, object key) => key is int i ? parent.AsArray()[i] : parent.AsObject()[(string)key];

    private static void Put(JsonNode parent, object key, JsonNode? value)
    {
        if (key is int i)
        {
            parent.AsArray()[i] = value;
        }
        else
        {
            parent.AsObject()[(string)key] = value;
        }
    }

    private static void Remove(JsonNode parent, object key)
    {
        if (key is int i)
        {
            parent.AsArray().RemoveAt(i);
        }
        else
        {
            parent.AsObject().Remove((string)key);
        }
    }
}
