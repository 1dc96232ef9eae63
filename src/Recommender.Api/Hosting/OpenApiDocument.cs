using System.Reflection;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Scoring;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Api.Hosting;

/// <summary>The OpenAPI 3.1 document and the page to browse it.</summary>
public static class OpenApiDocument
{
    /// <summary>Registers the generator, on the JSON shapes that are really written.</summary>
    public static void AddOpenApiDocument(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.TypeInfoResolverChain.Insert(0, WireJson.Default);
            json.SerializerOptions.TypeInfoResolverChain.Insert(1, ApiJson.Default);
            json.SerializerOptions.TypeInfoResolverChain.Insert(2, KnowledgeJson.Default);
            foreach (var converter in KnowledgeJson.Default.Options.Converters)
            {
                json.SerializerOptions.Converters.Add(converter);
            }
        });
        services.AddEndpointsApiExplorer();
        services.AddSwaggerGen(options =>
        {
            options.SwaggerDoc("v1", OpenApiText.Info);
            options.AddServer(new OpenApiServer { Url = "/", Description = "The service that serves this document" });
            options.SupportNonNullableReferenceTypes();
            options.CustomSchemaIds(OpenApiShapes.NameOf);
            options.MapType<Points>(() => new OpenApiSchema { Type = JsonSchemaType.Number, Description = "Points, at most three decimals; may be negative." });
            foreach (var assembly in new[] { typeof(Answer).Assembly, typeof(WireJson).Assembly, typeof(OpenApiDocument).Assembly })
            {
                options.IncludeXmlComments(Comments(assembly));
            }

            options.MapType<JsonObject>(() => new OpenApiSchema { Type = JsonSchemaType.Object });
            options.SchemaFilter<OpenApiShapes>();
            options.SchemaFilter<OpenApiLimits>();
            options.OperationFilter<OpenApiParameters>();
            options.OperationFilter<OpenApiAccess>();
            options.OperationFilter<OpenApiProblems>();
            options.OperationFilter<OpenApiExamples>();
            options.DocumentFilter<OpenApiText>();
            options.DocumentFilter<OpenApiAccess>();
            options.DocumentFilter<OpenApiDoses>();
            options.DocumentFilter<OpenApiTable>();
            options.DocumentFilter<OpenApiVersionText>();
            options.DocumentFilter<OpenApiNeeds>();
        });
    }

    /// <summary>Serves /openapi/v1.json and /docs.</summary>
    public static void MapOpenApiDocument(this WebApplication app)
    {
        app.UseSwagger(options =>
        {
            options.RouteTemplate = "openapi/{documentName}.json";
            options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        });
        app.UseSwaggerUI(options =>
        {
            options.RoutePrefix = "docs";
            options.SwaggerEndpoint("/openapi/v1.json", "Version 1");
        });
    }

    private static string Comments(Assembly assembly) => Path.Combine(AppContext.BaseDirectory, $"{assembly.GetName().Name}.xml");
}
