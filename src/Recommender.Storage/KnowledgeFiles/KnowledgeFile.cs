using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Storage.KnowledgeFiles;

/// <summary>One JSON file of the data folder, read and checked against the schema it belongs to.</summary>
internal sealed class KnowledgeFile
{
    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false, MaxDepth = 32 };

    private KnowledgeFile(string path, JsonObject body)
    {
        Path = path;
        Body = body;
    }

    /// <summary>Path below the data folder, with forward slashes.</summary>
    public string Path { get; }

    /// <summary>The content without its schema reference.</summary>
    public JsonObject Body { get; }

    /// <summary>Reads a file; null when it cannot be used, with its faults added.</summary>
    /// <param name="folder">Data folder.</param>
    /// <param name="path">Path below it.</param>
    /// <param name="schemas">Schemas by name.</param>
    /// <param name="schema">Name of the file's schema.</param>
    /// <param name="faults">Takes what is wrong.</param>
    public static KnowledgeFile? Read(string folder, string path, Dictionary<string, JsonSchema> schemas, string schema, List<KnowledgeFault> faults)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(File.ReadAllBytes(System.IO.Path.Combine(folder, path)), Strict);
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
            Validate(document.RootElement, path, schemas[schema], faults);
            if (faults.Count > before || JsonObject.Create(document.RootElement.Clone()) is not { } body)
            {
                return null;
            }

            body.Remove("$schema");
            return new KnowledgeFile(path, body);
        }
    }

    /// <summary>Reads a value; null when it does not fit its type, with a fault added.</summary>
    public T? As<T>(JsonNode? node, string pointer, List<KnowledgeFault> faults) where T : class
    {
        try
        {
            return (T?)node.Deserialize(KnowledgeJson.Default.GetTypeInfo(typeof(T))!);
        }
        catch (JsonException e)
        {
            faults.Add(new KnowledgeFault(Path, pointer + JsonPath.ToPointer(e.Path), e.Message));
            return null;
        }
    }

    /// <summary>Reads one exercise that came in another shape than a data file; null when it cannot be used, with its faults added.</summary>
    /// <param name="file">Name told in faults.</param>
    /// <param name="pointer">Pointer of the exercise, told in faults.</param>
    /// <param name="row">The exercise.</param>
    /// <param name="schema">Schema of the exercise files.</param>
    /// <param name="faults">Takes what is wrong.</param>
    public static Exercise? ReadRow(string file, string pointer, JsonObject row, JsonSchema schema, List<KnowledgeFault> faults)
    {
        const string Within = "/exercises/0";
        var pattern = row["pattern"] is JsonValue value && value.TryGetValue<string>(out var text) ? text : "unknown";
        var whole = new JsonObject { ["$schema"] = "../schemas/exercises.schema.json", ["pattern"] = pattern, ["exercises"] = new JsonArray(row.DeepClone()) };
        var found = new List<KnowledgeFault>();
        Validate(JsonSerializer.SerializeToElement(whole), file, schema, found);
        faults.AddRange(found
            .Where(f => f.Pointer.StartsWith(Within, StringComparison.Ordinal))
            .Select(f => f with { Pointer = pointer + f.Pointer[Within.Length..] }));
        return found.Count > 0 ? null : new KnowledgeFile(file, whole).As<Exercise>(row, pointer, faults);
    }

    /// <summary>Hash of files by path and content, blind to white space: 16 hexadecimal digits.</summary>
    public static string HashOf(IEnumerable<KnowledgeFile> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files.OrderBy(f => f.Path, StringComparer.Ordinal))
        {
            hash.AppendData(Encoding.UTF8.GetBytes($"{file.Path}\n{file.Body.ToJsonString()}\n"));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..16];
    }

    /// <summary>What stands under an "if" is asked, not required, so its no is no fault.</summary>
    private static bool IsQuestion(string evaluationPath) => evaluationPath.Contains("/if", StringComparison.Ordinal);

    private static void Validate(JsonElement root, string path, JsonSchema schema, List<KnowledgeFault> faults)
    {
        // The flag is cheap; only a file that fails is walked again for its reasons.
        if (schema.Evaluate(root, new EvaluationOptions { OutputFormat = OutputFormat.Flag }).IsValid)
        {
            return;
        }

        var results = schema.Evaluate(root, new EvaluationOptions { OutputFormat = OutputFormat.List });
        var found = (results.Details ?? [])
            .Where(d => d.Errors is not null && !IsQuestion(d.EvaluationPath.ToString()))
            .SelectMany(d => d.Errors!.Select(error => new KnowledgeFault(path, d.InstanceLocation.ToString(), error.Value.Replace("\\u0022", "", StringComparison.Ordinal))))
            .Distinct()
            .OrderByDescending(f => f.Pointer.Length)
            .ToList();
        faults.AddRange(found.Count > 0 ? found : [new KnowledgeFault(path, "", "does not fit its schema.")]);
    }
}
