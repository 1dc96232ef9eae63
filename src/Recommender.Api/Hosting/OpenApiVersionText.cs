using Microsoft.OpenApi;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The text of a version: its files go out as they are kept, so no type of ours describes them.</summary>
internal sealed class OpenApiVersionText : IDocumentFilter
{
    private const string Name = "VersionText";
    private static readonly string[] Paths = ["/v1/catalogue/versions/{version}", "/v1/rules/versions/{version}"];

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        swaggerDoc.Components!.Schemas!.Add(Name, new OpenApiSchema
        {
            Type = JsonSchemaType.Object,
            Description = "Path of a file and its content, in canonical JSON (RFC 8785). The data folder's schemas describe each file.",
            AdditionalProperties = new OpenApiSchema { Type = JsonSchemaType.Object },
        });
        foreach (var content in Paths.SelectMany(p => swaggerDoc.Paths[p].Operations![HttpMethod.Get].Responses!["200"].Content!.Values).OfType<OpenApiMediaType>())
        {
            content.Schema = new OpenApiSchemaReference(Name, swaggerDoc);
        }
    }
}
