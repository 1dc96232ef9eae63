using Microsoft.OpenApi;
using Recommender.Domain.Dosing;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The dose of a side as a shape of its own: it holds no sides again. A shape that holds itself is cut off by tools that write every reference out.</summary>
internal sealed class OpenApiDoses : IDocumentFilter
{
    private const string OfSide = "DoseOfSide";

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        var schemas = swaggerDoc.Components!.Schemas!;
        var dose = (OpenApiSchema)schemas[nameof(Dose)];
        var sides = (OpenApiSchema)schemas[nameof(DoseSides)];
        var ofSide = (OpenApiSchema)dose.CreateShallowCopy();
        ofSide.Description = "The dose of one side; it holds no sides again.";
        ofSide.Properties = dose.Properties!.ToDictionary(p => p.Key, p => p.Key == "sides" ? new OpenApiSchema { Type = JsonSchemaType.Null, Description = "Null." } : p.Value);
        schemas.Add(OfSide, ofSide);
        foreach (var side in sides.Properties!.Keys.ToList())
        {
            sides.Properties[side] = new OpenApiSchemaReference(OfSide, swaggerDoc) { Description = sides.Properties[side].Description };
        }
    }
}
