using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>One operation of the document.</summary>
/// <param name="Id">operationId.</param>
/// <param name="Method">HTTP method, upper case.</param>
/// <param name="Path">Path with its parameters in braces.</param>
/// <param name="Parameters">Parameters: name, where, schema, and whether they must be there.</param>
/// <param name="Body">Schema of the body, or null when it takes none.</param>
/// <param name="BodyRequired">Whether the body must be there.</param>
/// <param name="Answers">By status: media type and the schema that its body keeps; no media type for an empty answer.</param>
public sealed record Operation(
    string Id, string Method, string Path, IReadOnlyList<(string Name, string In, JsonObject Schema, bool Required)> Parameters,
    JsonObject? Body, bool BodyRequired, IReadOnlyDictionary<int, IReadOnlyDictionary<string, JsonSchema>> Answers);

/// <summary>The document that the service serves, read for the generator, with its answers' schemas in the hands of an outside validator (JsonSchema.Net, draft 2020-12).</summary>
public sealed class ApiDocument
{
    private readonly JsonObject schemas;
    private readonly Dictionary<string, JsonSchema> compiled = new(StringComparer.Ordinal);
    private readonly string definitions;

    public ApiDocument(string text)
    {
        var root = JsonNode.Parse(text)!.AsObject();
        schemas = root["components"]!["schemas"]!.AsObject();
        definitions = schemas.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal);
        Operations = [.. root["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Select(m => Read(p.Key, m.Key, m.Value!.AsObject())))];
        Problem = Compiled("#/components/schemas/ProblemBody");
    }

    public IReadOnlyList<Operation> Operations { get; }

    /// <summary>What every problem keeps.</summary>
    public JsonSchema Problem { get; }

    /// <summary>A schema with its reference followed.</summary>
    public JsonObject Followed(JsonObject schema) =>
        (string?)schema["$ref"] is { } reference ? Followed(schemas[reference.Split('/')[^1]]!.AsObject()) : schema;

    /// <summary>What the validator holds against a value; empty when it is valid.</summary>
    public static string Faults(JsonSchema schema, JsonElement value)
    {
        if (schema.Evaluate(value, new EvaluationOptions { OutputFormat = OutputFormat.Flag, RequireFormatValidation = true }).IsValid)
        {
            return "";
        }

        var details = schema.Evaluate(value, new EvaluationOptions { OutputFormat = OutputFormat.List, RequireFormatValidation = true }).Details ?? [];
        return string.Join("; ", details.Where(d => d.Errors is not null).OrderByDescending(d => d.InstanceLocation.ToString().Length).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")).DefaultIfEmpty("invalid").Take(8));
    }

    private Operation Read(string path, string method, JsonObject operation) => new(
        (string)operation["operationId"]!, method.ToUpperInvariant(), path,
        [.. (operation["parameters"]?.AsArray() ?? []).Select(p => ((string)p!["name"]!, (string)p["in"]!, p["schema"]!.AsObject(), (bool?)p["required"] ?? false))],
        operation["requestBody"]?["content"]?["application/json"]?["schema"]?.AsObject(),
        (bool?)operation["requestBody"]?["required"] ?? false,
        operation["responses"]!.AsObject().ToDictionary(
            r => int.Parse(r.Key, System.Globalization.CultureInfo.InvariantCulture),
            r => (IReadOnlyDictionary<string, JsonSchema>)(r.Value!["content"]?.AsObject() ?? []).ToDictionary(c => c.Key, c => Compiled((string)c.Value!["schema"]!["$ref"]!))));

    private JsonSchema Compiled(string reference)
    {
        if (!compiled.TryGetValue(reference, out var schema))
        {
            var name = reference.Split('/')[^1];
            schema = JsonSchema.FromText($$"""{"$schema":"https://json-schema.org/draft/2020-12/schema","$id":"https://recommender.invalid/{{name}}","$ref":"#/$defs/{{name}}","$defs":{{definitions}}}""");
            compiled.Add(reference, schema);
        }

        return schema;
    }
}
