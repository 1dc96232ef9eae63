using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Recommender.Domain.Catalogue;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>Parameters that handlers read from the request themselves: filters of the catalogue and the idempotency key.</summary>
internal sealed class OpenApiParameters : IOperationFilter
{
    private static readonly (string Name, string Description, JsonNode Example, Func<OpenApiSchema> Schema)[] Filters =
    [
        ("quality", "Quality id; exercises that are rated for it.", "hamstring-capacity", Text),
        ("support", "How the body stands.", "single", () => new OpenApiSchema { Type = JsonSchemaType.String, Enum = [.. Enum.GetNames<Support>().Select(s => (JsonNode)JsonNamingPolicy.KebabCaseLower.ConvertName(s))] }),
        ("equipment", "Equipment id; exercises with an alternative that uses it.", "band", Text),
        ("region", "Region id. Alone: exercises that load it. With maxLoad: exercises that spare it.", "patellar-tendon", Text),
        ("maxLoad", "Highest upper tissue load on the region; needs a region.", 3.3m, () => new OpenApiSchema { Type = JsonSchemaType.Number, Minimum = "0", Maximum = "10" }),
        ("pattern", "Movement pattern id.", "hinge", Text),
        ("q", "Part of an id, a name or a synonym, in any case.", "deadlift", Text),
        ("cursor", "nextCursor of the page before.", "YW5rbGluZw", Text),
        ("limit", "Exercises a page.", 20, () => new OpenApiSchema { Type = JsonSchemaType.Integer, Minimum = "1", Maximum = "100", Default = 50 }),
    ];

    /// <inheritdoc/>
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        operation.Parameters ??= [];
        if (operation.OperationId == "listExercises")
        {
            foreach (var (name, description, example, schema) in Filters)
            {
                operation.Parameters.Add(new OpenApiParameter { Name = name, In = ParameterLocation.Query, Description = description, Schema = schema(), Example = example.DeepClone() });
            }
        }

        if (HttpMethods.IsPost(context.ApiDescription.HttpMethod ?? ""))
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

    private static OpenApiSchema Text() => new() { Type = JsonSchemaType.String, MinLength = 1 };
}
