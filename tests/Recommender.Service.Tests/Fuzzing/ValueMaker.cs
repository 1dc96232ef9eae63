using System.Globalization;
using System.Text.Json.Nodes;
using CsCheck;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>Values that a schema of the document allows. Ids are taken from what the service lists, so that requests go deep.</summary>
/// <param name="document">The document.</param>
/// <param name="ids">Ids by the name of the list that holds them.</param>
public sealed class ValueMaker(ApiDocument document, IReadOnlyDictionary<string, string[]> ids)
{
    private const int Deepest = 9;

    /// <summary>A value of a schema.</summary>
    /// <param name="random">Source of chance.</param>
    /// <param name="schema">Schema.</param>
    /// <param name="name">Property that it is for; decides which ids fit.</param>
    /// <param name="depth">How deep it lies.</param>
    public JsonNode? Value(PCG random, JsonObject schema, string name, int depth = 0)
    {
        schema = document.Followed(schema);
        if (schema["anyOf"] is JsonArray any && schema["properties"] is null)
        {
            return Value(random, any[(int)random.Next((uint)any.Count)]!.AsObject(), name, depth);
        }

        if (schema["enum"] is JsonArray words)
        {
            return words[(int)random.Next((uint)words.Count)]?.DeepClone();
        }

        return TypeOf(random, schema) switch
        {
            "null" => null,
            "boolean" => random.Next(2) == 0,
            "integer" => Whole(random, schema),
            "number" => Number(random, schema),
            "array" => List(random, schema, name, depth),
            "object" => Shape(random, schema, name, depth),
            _ => Text(random, schema, name),
        };
    }

    /// <summary>An id that the service knows for a property, or null when there is no such list.</summary>
    public string? IdFor(PCG random, string name)
    {
        foreach (var list in new[] { name, name + "s", name.TrimEnd('y') + "ies", name.TrimEnd('s') })
        {
            if (ids.TryGetValue(list, out var found) && found.Length > 0)
            {
                return found[(int)random.Next((uint)found.Length)];
            }
        }

        return null;
    }

    private static string TypeOf(PCG random, JsonObject schema)
    {
        var types = schema["type"] is JsonArray several ? several.Select(t => (string)t!).ToArray() : [(string?)schema["type"] ?? "object"];
        // Null is allowed in nearly every property; more often than now and then would leave requests empty.
        return types.Length > 1 && random.Next(8) > 0 ? types.First(t => t != "null") : types[(int)random.Next((uint)types.Length)];
    }

    private static JsonValue Whole(PCG random, JsonObject schema)
    {
        var (low, high) = Bounds(schema);
        return JsonValue.Create((long)low + random.Next((uint)Math.Min((long)high - (long)low + 1, int.MaxValue)));
    }

    private static JsonValue Number(PCG random, JsonObject schema)
    {
        var (low, high) = Bounds(schema);
        var value = random.Next(6) switch { 0 => low, 1 => high, _ => low + ((high - low) * random.Next(1001) / 1000m) };
        return JsonValue.Create(decimal.Round(value, (int)random.Next(4)) is var rounded && rounded >= low && rounded <= high ? rounded : value);
    }

    private static (decimal Low, decimal High) Bounds(JsonObject schema)
    {
        var low = Of("minimum") ?? (Of("exclusiveMinimum") + 0.001m) ?? 0;
        return (low, Of("maximum") ?? low + 200);

        decimal? Of(string name) => schema[name] is { } node ? decimal.Parse(node.ToString(), NumberStyles.Float, CultureInfo.InvariantCulture) : null;
    }

    private JsonArray List(PCG random, JsonObject schema, string name, int depth)
    {
        var least = (int?)schema["minItems"] ?? 0;
        var most = Math.Min((int?)schema["maxItems"] ?? 4, depth == 0 ? 40 : 4);
        var count = depth > Deepest ? least : least + (int)random.Next((uint)Math.Max(1, most - least + 1));
        return new JsonArray([.. Enumerable.Range(0, count).Select(_ => Value(random, schema["items"]!.AsObject(), name, depth + 1))]);
    }

    private JsonObject Shape(PCG random, JsonObject schema, string name, int depth)
    {
        var made = new JsonObject();
        var required = schema["required"]?.AsArray().Select(r => (string)r!).ToHashSet(StringComparer.Ordinal) ?? [];
        if (schema["anyOf"] is JsonArray any && any[(int)random.Next((uint)any.Count)]!["required"] is JsonArray either)
        {
            required.UnionWith(either.Select(r => (string)r!));
        }

        foreach (var (property, value) in schema["properties"]?.AsObject() ?? [])
        {
            // Many test values at once are mostly impossible ones.
            if (required.Contains(property) || random.Next(name == "tests" ? 24u : 3u) == 0 || (property is "exercise" && random.Next(20) > 0))
            {
                made[property] = Value(random, value!.AsObject(), property, depth + 1);
            }
        }

        if (schema["additionalProperties"] is JsonObject values)
        {
            for (var i = random.Next(4); i > 0; i--)
            {
                made[IdFor(random, name is "budgets" ? "region" : name is "qualities" ? "quality" : "exercise") ?? "x"] = Value(random, values, name, depth + 1);
            }
        }

        return Consistent(made);
    }

    /// <summary>Takes out what contradicts something beside it, which no schema can say; otherwise most requests would be refused before anything is answered.</summary>
    private static JsonObject Consistent(JsonObject made)
    {
        foreach (var (one, other) in new[] { ("event", "eventGroup"), ("weight", "importance"), ("competitions", "weeksToCompetition"), ("exercise", "described"), ("trainingAgeYears", "ageYears"), ("mornings", "nextMorning") })
        {
            if (made[one] is not null)
            {
                made.Remove(other);
            }
        }

        (made["context"] as JsonObject)?.Remove("count");

        return made;
    }

    private JsonValue Text(PCG random, JsonObject schema, string name)
    {
        var least = (int?)schema["minLength"] ?? 0;
        var most = (int?)schema["maxLength"] ?? 40;
        if ((string?)schema["format"] is "date" or "date-time")
        {
            return JsonValue.Create($"202{random.Next(10)}-0{1 + random.Next(9)}-1{random.Next(10)}{((string?)schema["format"] is "date" ? "" : "T09:30:00Z")}");
        }

        if ((string?)schema["format"] is "uuid")
        {
            return JsonValue.Create(IdFor(random, "decisionId") ?? Guid.Empty.ToString());
        }

        if (((string?)schema["pattern"] is { } pattern && pattern.Contains("a-z0-9", StringComparison.Ordinal)) || (schema["pattern"] is null && schema["maxLength"] is null))
        {
            return JsonValue.Create(IdFor(random, name) ?? "x");
        }

        if ((string?)schema["pattern"] is "^[0-9a-f]{64}$")
        {
            return JsonValue.Create(string.Concat(Enumerable.Range(0, 64).Select(_ => "0123456789abcdef"[(int)random.Next(16)])));
        }

        // Half of what may be any text is hostile: notes, refs and names are data whatever stands in them.
        var text = random.Next(2) == 0 ? HostileText.All[random.Next((uint)HostileText.All.Length)] : IdFor(random, name) ?? "Anna O'Neil";
        text = text.Length > most ? text[..most] : text;
        return JsonValue.Create(char.IsHighSurrogate(text.LastOrDefault()) ? text[..^1] : text.Length < least ? new string('x', least) : text);
    }
}
