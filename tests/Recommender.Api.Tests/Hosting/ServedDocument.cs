using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The served document, and its schemas in the hands of an outside validator (JsonSchema.Net, draft 2020-12).</summary>
public sealed class ServedDocument
{
    private readonly string definitions;

    private ServedDocument(string text)
    {
        Text = text;
        Root = JsonNode.Parse(text)!.AsObject();
        definitions = Root["components"]!["schemas"]!.ToJsonString().Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal);
    }

    public string Text { get; }

    public JsonObject Root { get; }

    public static async Task<ServedDocument> Of(ApiHost api) => new(await api.Client.GetStringAsync("/openapi/v1.json"));

    public IEnumerable<(string Path, string Method, JsonObject Operation)> Operations() =>
        Root["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Select(m => (p.Key, m.Key, m.Value!.AsObject())));

    /// <summary>What the validator holds against a value; empty when it is valid.</summary>
    public IReadOnlyList<string> Faults(string schema, string json)
    {
        var whole = JsonSchema.FromText($$"""{"$schema":"https://json-schema.org/draft/2020-12/schema","$ref":"#/$defs/{{schema}}","$defs":{{definitions}}}""");
        using var document = JsonDocument.Parse(json);
        var result = whole.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List, RequireFormatValidation = true });
        return result.IsValid
            ? []
            : [.. (result.Details ?? []).Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")).DefaultIfEmpty("invalid")];
    }

    public void MustAccept(string schema, string json) => Assert.Empty(Faults(schema, json));
}
