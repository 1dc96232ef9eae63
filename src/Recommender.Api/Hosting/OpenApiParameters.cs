using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Recommender.Answers;
using Recommender.Api.Decisions;
using Recommender.Domain.Catalogue;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>Parameters that handlers read from the request themselves: filters of lists and the idempotency key.</summary>
internal sealed class OpenApiParameters : IOperationFilter
{
    private static readonly (string Name, string Description, JsonNode Example, Func<OpenApiSchema> Schema)[] OfDecisions =
    [
        ("athlete", "The athlete's ref.", "NM-04", Text),
        ("coach", "The coach's id.", "coach-7", Text),
        ("exercise", "Exercise id; decisions that pick or replace it.", "back-squat", Text),
        ("kind", "Kind of decision.", "recommendation", () => Words([.. DecisionKind.All.Select(k => k.Id)])),
        ("status", "Status of the answer.", "referred", () => Words("answered", "referred", "nothing-eligible")),
        ("version", "Version of catalogue, rules or preference that they were made on.", "0123456789abcdef", Text),
        ("from", "Not before: a day in UTC, or a time with its offset.", "2026-03-01", Text),
        ("to", "Up to the end of this day in UTC, or before this time.", "2026-03-31T18:00:00Z", Text),
    ];

    private static readonly (string Name, string Description, JsonNode Example, Func<OpenApiSchema> Schema)[] OfPages =
    [
        ("cursor", "nextCursor of the page before.", "YW5rbGluZw", Text),
        ("limit", "Entries a page.", 20, () => new OpenApiSchema { Type = JsonSchemaType.Integer, Minimum = "1", Maximum = "100", Default = 50 }),
    ];

    private static readonly (string Name, string Description, JsonNode Example, Func<OpenApiSchema> Schema)[] OfExercises =
    [
        ("quality", "Quality id; exercises that are rated for it.", "hamstring-capacity", Text),
        ("support", "How the body stands.", "single", () => new OpenApiSchema { Type = JsonSchemaType.String, Enum = [.. Enum.GetNames<Support>().Select(s => (JsonNode)JsonNamingPolicy.KebabCaseLower.ConvertName(s))] }),
        ("equipment", "Equipment id; exercises with an alternative that uses it.", "band", Text),
        ("region", "Region id. Alone: exercises that load it. With maxLoad: exercises that spare it.", "patellar-tendon", Text),
        ("maxLoad", "Highest upper tissue load on the region; needs a region.", 3.3m, () => new OpenApiSchema { Type = JsonSchemaType.Number, Minimum = "0", Maximum = "10" }),
        ("pattern", "Movement pattern id.", "hinge", Text),
        ("q", "Part of an id, a name or a synonym, in any case.", "deadlift", Text),
    ];

    /// <summary>Calls whose answer is not kept, so that it cannot be given again.</summary>
    private static readonly string[] OfSecrets = ["createKey", "rotateKey"];

    private static readonly Dictionary<string, (string Name, string Description, JsonNode Example, Func<OpenApiSchema> Schema)[]> Queries = new()
    {
        ["listExercises"] = [.. OfExercises, .. OfPages],
        ["listDecisions"] = [.. OfDecisions, .. OfPages],
        ["exportDecisions"] = [.. OfDecisions, ("format", "NDJSON holds whole records, CSV what a list shows.", "csv", () => Words("ndjson", "csv"))],
    };

    /// <inheritdoc/>
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        operation.Parameters ??= [];
        foreach (var (name, description, example, schema) in Queries.GetValueOrDefault(operation.OperationId ?? "", []))
        {
            operation.Parameters.Add(new OpenApiParameter { Name = name, In = ParameterLocation.Query, Description = description, Schema = schema(), Example = example.DeepClone() });
        }

        foreach (var (name, description, example) in operation.OperationId switch
        {
            "compareExercises" => AuditQuery.OfComparison,
            "findCounterfactuals" => AuditQuery.OfCounterfactuals,
            _ => [],
        })
        {
            operation.Parameters.Add(new OpenApiParameter { Name = name, In = ParameterLocation.Query, Required = true, Description = description, Schema = Text(), Example = example });
        }

        if (HttpMethods.IsPost(context.ApiDescription.HttpMethod ?? "") && !OfSecrets.Contains(operation.OperationId))
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = Idempotency.Header,
                In = ParameterLocation.Header,
                Description = "A key of your own. Sent again within 24 hours with the same body it gives the stored answer, byte for byte; with another body it is refused with 409.",
                Schema = new OpenApiSchema { Type = JsonSchemaType.String, MinLength = 1, MaxLength = Idempotency.LongestKey, Pattern = "^[!-~]+$" },
                Example = "nm-04-monday-gym",
            });
        }
    }

    private static OpenApiSchema Words(params string[] words) => new() { Type = JsonSchemaType.String, Enum = [.. words.Select(w => (JsonNode)w)] };

    private static OpenApiSchema Text() => new() { Type = JsonSchemaType.String, MinLength = 1 };
}
