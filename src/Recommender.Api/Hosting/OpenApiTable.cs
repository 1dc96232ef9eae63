using Microsoft.OpenApi;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Decisions;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The catalogue and the record as tables, beside their JSON.</summary>
internal sealed class OpenApiTable : IDocumentFilter
{
    private const string Name = "ExerciseTable";

    private const string About =
        "RFC 4180, UTF-8, one row an exercise, header first. Columns: the fields of an exercise, fact.NAME, quality.ID with rating, basis and source, load.ID with load, " +
        "interval, basis and source. Alternatives and lists are parted by a bar, things needed together by a plus; the word nothing is an alternative that needs nothing. " +
        "An apostrophe stands before a cell that a spreadsheet would take for a formula.";

    private const string Decisions = "DecisionTable";

    private const string AboutDecisions = "RFC 4180, UTF-8, one row a decision, header first; the exercises that it picks or replaces are parted by a bar. An apostrophe stands before a cell that a spreadsheet would take for a formula.";

    private const string FirstColumns =
        "id,name,family,pattern,support,direction,contraction,loadBand,loadingRate,equipment\r\n" +
        "goblet-squat,Goblet squat,goblet-squat,squat,double,vertical,dynamic,moderate,slow,dumbbell | kettlebell\r\n";

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        swaggerDoc.Components!.Schemas!.Add(Name, new OpenApiSchema { Type = JsonSchemaType.String, Description = About });
        swaggerDoc.Components.Schemas.Add(Decisions, new OpenApiSchema { Type = JsonSchemaType.String, Description = AboutDecisions });
        swaggerDoc.Paths["/v1/decisions/export"].Operations![HttpMethod.Get].Responses!["200"].Content!.Add(ExerciseCsv.MediaType, new OpenApiMediaType
        {
            Schema = new OpenApiSchemaReference(Decisions, swaggerDoc),
            Examples = new Dictionary<string, IOpenApiExample> { ["the-header"] = new OpenApiExample { Summary = "The header", Value = string.Join(',', DecisionExport.Columns) + "\r\n" } },
        });
        var listed = swaggerDoc.Paths["/v1/exercises"].Operations![HttpMethod.Get].Responses!["200"];
        listed.Content!.Add(ExerciseCsv.MediaType, new OpenApiMediaType
        {
            Schema = new OpenApiSchemaReference(Name, swaggerDoc),
            Examples = new Dictionary<string, IOpenApiExample> { ["the-first-columns-of-one-exercise"] = new OpenApiExample { Summary = "The first columns of one exercise", Value = FirstColumns } },
        });
    }
}
