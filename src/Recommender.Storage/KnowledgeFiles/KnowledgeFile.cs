using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>One JSON file of the data folder, read and checked against the schema it belongs to.</summary>
internal sealed class KnowledgeFile
{
    private const string Exercises = "exercises";

    private static readonly ConditionalWeakTable<byte[], KnowledgeFile> Parsed = [];

    private ConcurrentDictionary<(Type, string), object?>? typed;

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 32 };

    /// <summary>What would be right is said, not only that it is wrong.</summary>
    static KnowledgeFile() => ErrorMessages.Enum = "[[received]] is none of [[values]].";

    private KnowledgeFile(string path, JsonObject body, byte[] canonical)
    {
        Path = path;
        Body = body;
        Canonical = canonical;
    }

    /// <summary>Path below the data folder, with forward slashes.</summary>
    public string Path { get; }

    /// <summary>The content without its schema reference, as its canonical form says it: however a number was written, it is read alike.</summary>
    public JsonObject Body { get; }

    /// <summary>The content in canonical form.</summary>
    public byte[] Canonical { get; }

    /// <summary>Reads a file; null when it cannot be used, with its faults added.</summary>
    /// <param name="source">Where files are read from.</param>
    /// <param name="path">Path there.</param>
    /// <param name="kind">Name of the file's schema.</param>
    /// <param name="schema">The schema; null where the same bytes were held against it before.</param>
    /// <param name="faults">Takes what is wrong.</param>
    public static KnowledgeFile? Read(IKnowledgeSource source, string path, string kind, KnowledgeSchema? schema, List<KnowledgeFault> faults)
    {
        byte[] text;
        JsonDocument document;
        try
        {
            text = source.Read(path);
            document = JsonDocument.Parse(text, Strict);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            faults.Add(new KnowledgeFault(path, "", $"cannot be read ({e.Message})"));
            return null;
        }
        catch (JsonException e)
        {
            faults.Add(new KnowledgeFault(path, "", $"is not JSON, line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: {e.Message}"));
            return null;
        }

        using (document)
        {
            var before = faults.Count;
            var body = document.RootElement.ValueKind == JsonValueKind.Object ? JsonObject.Create(document.RootElement.Clone()) : null;
            if (body is not null && !source.NamesSchemas)
            {
                body["$schema"] = string.Concat(Enumerable.Repeat("../", path.Count(c => c == '/'))) + $"schemas/{kind}.schema.json";
            }

            if (schema?.Name(source.NamesSchemas ? path : "without its schema: " + path, text) is { } name && !KnowledgeSchema.Knows(name))
            {
                Validate(body is null || source.NamesSchemas ? document.RootElement : JsonSerializer.SerializeToElement(body), path, schema.Schema, faults);
                if (faults.Count == before)
                {
                    KnowledgeSchema.Remember(name);
                }
            }

            if (faults.Count > before || body is null)
            {
                return null;
            }

            body.Remove("$schema");
            return Of(path, JsonSerializer.SerializeToUtf8Bytes(body));
        }
    }

    /// <summary>Reads a value; null when it does not fit its type, with a fault added.</summary>
    public T? As<T>(JsonNode? node, string pointer, List<KnowledgeFault> faults) where T : class
    {
        try
        {
            return typed is null ? Deserialized() : (T?)typed.GetOrAdd((typeof(T), pointer), _ => Deserialized());
        }
        catch (JsonException e)
        {
            faults.Add(new KnowledgeFault(Path, pointer + JsonPath.ToPointer(e.Path), e.Message));
            return null;
        }

        T? Deserialized() => (T?)node.Deserialize(KnowledgeJson.Default.GetTypeInfo(typeof(T))!);
    }

    /// <summary>A file in canonical form that was checked before; the same bytes are parsed once.</summary>
    public static KnowledgeFile Trusted(string path, byte[] canonical) =>
        Parsed.GetValue(canonical, c => new KnowledgeFile(path, JsonNode.Parse(c)!.AsObject(), c) { typed = [] });

    private static KnowledgeFile Of(string path, byte[] json)
    {
        var canonical = CanonicalJson.Of(json);
        return new KnowledgeFile(path, JsonNode.Parse(canonical)!.AsObject(), canonical);
    }

    /// <summary>What stands under an "if" is asked, not required, so its no is no fault.</summary>
    private static bool IsQuestion(string evaluationPath) => evaluationPath.Contains("/if", StringComparison.Ordinal);

    private static void Validate(JsonElement root, string path, JsonSchema schema, List<KnowledgeFault> faults)
    {
        // The flag is cheap; only a file that fails is walked again for its reasons.
        if (Fits(root, schema))
        {
            return;
        }

        var found = root.ValueKind == JsonValueKind.Object && root.TryGetProperty(Exercises, out var list) && list.ValueKind == JsonValueKind.Array && list.GetArrayLength() > 1
            ? OneByOne(root, list, path, schema) : [];
        found = found.Count > 0 ? found : Reasons(root, path, schema);
        faults.AddRange(found.Count > 0 ? found : [new KnowledgeFault(path, "", "does not fit its schema.")]);
    }

    /// <summary>Reasons of each exercise by itself: walked whole, a file with a thousand faults takes minutes.</summary>
    private static List<KnowledgeFault> OneByOne(JsonElement root, JsonElement list, string path, JsonSchema schema)
    {
        const string Within = $"/{Exercises}/0";
        var found = new List<KnowledgeFault>();
        var shell = JsonObject.Create(root)!.DeepClone().AsObject();
        foreach (var (item, i) in list.EnumerateArray().Select((item, i) => (item, i)))
        {
            shell[Exercises] = new JsonArray(JsonNode.Parse(item.GetRawText()));
            var one = JsonSerializer.SerializeToElement(shell);
            if (!Fits(one, schema))
            {
                found.AddRange(Reasons(one, path, schema)
                    .Select(f => f.Pointer.StartsWith(Within, StringComparison.Ordinal) ? f with { Pointer = $"/{Exercises}/{i}{f.Pointer[Within.Length..]}" } : f));
            }
        }

        return [.. found.Distinct()];
    }

    private static bool Fits(JsonElement root, JsonSchema schema) => schema.Evaluate(root, new EvaluationOptions { OutputFormat = OutputFormat.Flag }).IsValid;

    private static List<KnowledgeFault> Reasons(JsonElement root, string path, JsonSchema schema) =>
    [
        .. (schema.Evaluate(root, new EvaluationOptions { OutputFormat = OutputFormat.List }).Details ?? [])
            .Where(d => d.Errors is not null && !IsQuestion(d.EvaluationPath.ToString()))
            .SelectMany(d => d.Errors!.Select(error => new KnowledgeFault(path, d.InstanceLocation.ToString(), error.Value.Replace("\\u0022", "", StringComparison.Ordinal))))
            .Distinct()
            .OrderByDescending(f => f.Pointer.Length),
    ];
}
