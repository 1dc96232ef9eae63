using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Recommender.Api.Problems;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>
/// Examples, kept as files in openapi/examples and carried in the program. Their names say where they go: OPERATION.request.NAME.json,
/// OPERATION.STATUS.NAME.json, and problem.CODE.json for every operation that has none of its own for this status.
/// </summary>
internal sealed class OpenApiExamples : IOperationFilter
{
    private const string Prefix = "examples/";

    private static readonly (string Operation, string Place, string Name, JsonNode Value)[] Files =
        [.. typeof(OpenApiExamples).Assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(Read)];

    /// <inheritdoc/>
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        if (operation.RequestBody is OpenApiRequestBody { Content: { } body })
        {
            Add(body, operation.OperationId!, "request");
        }

        foreach (var (status, found) in operation.Responses!)
        {
            if (found is not OpenApiResponse { Content: { } content } || Add(content, operation.OperationId!, status))
            {
                continue;
            }

            if (ProblemTypes.All.FirstOrDefault(t => t.Status.ToString(CultureInfo.InvariantCulture) == status) is { } problem)
            {
                Add(content, "problem", problem.Code);
            }
        }
    }

    private static bool Add(IDictionary<string, IOpenApiMediaType> content, string operation, string place)
    {
        var files = Files.Where(f => f.Operation == operation && f.Place == place).ToList();
        foreach (var media in content.Values.OfType<OpenApiMediaType>().Where(_ => files.Count > 0))
        {
            media.Examples = files.ToDictionary(f => f.Name, f => (IOpenApiExample)new OpenApiExample { Summary = Sentence(f.Name), Value = f.Value.DeepClone() });
        }

        return files.Count > 0;
    }

    private static (string Operation, string Place, string Name, JsonNode Value) Read(string resource)
    {
        using var stream = typeof(OpenApiExamples).Assembly.GetManifestResourceStream(resource)!;
        var parts = resource[Prefix.Length..].Split('.');
        return (parts[0], parts[1], parts.Length > 3 ? parts[2] : parts[1], JsonNode.Parse(stream)!);
    }

    private static string Sentence(string name) => char.ToUpperInvariant(name[0]) + name[1..].Replace('-', ' ');
}
