using Microsoft.OpenApi;
using Recommender.Api.Needs;
using Recommender.Domain.Requests;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The body of a request for needs: that of a recommendation without what chooses among exercises, so that neither can gain a field alone.</summary>
internal sealed class OpenApiNeeds : IDocumentFilter
{
    private const string Name = "NeedsRequest";

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        var whole = (OpenApiSchema)swaggerDoc.Components!.Schemas![nameof(RecommendationRequest)];
        swaggerDoc.Components.Schemas.Add(Name, new OpenApiSchema
        {
            Description = "A request for needs: that of a recommendation without what chooses among exercises.",
            Type = whole.Type,
            Properties = whole.Properties!.Where(p => !NeedsEndpoints.OfChoosing.Contains(p.Key)).ToDictionary(p => p.Key, p => p.Value),
            Required = whole.Required,
            AdditionalPropertiesAllowed = false,
        });
        foreach (var content in swaggerDoc.Paths[NeedsEndpoints.Path].Operations![HttpMethod.Post].RequestBody!.Content!.Values.OfType<OpenApiMediaType>())
        {
            content.Schema = new OpenApiSchemaReference(Name, swaggerDoc);
        }
    }
}
