using Microsoft.OpenApi;
using Recommender.Answers.Wire;

namespace Recommender.Api.Hosting;

/// <summary>The OpenAPI 3.1 document and the page to browse it.</summary>
public static class OpenApiDocument
{
    /// <summary>Registers the generator.</summary>
    public static void AddOpenApiDocument(this IServiceCollection services)
    {
        services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.TypeInfoResolverChain.Insert(0, WireJson.Default);
            json.SerializerOptions.TypeInfoResolverChain.Insert(1, ApiJson.Default);
            foreach (var converter in WireJson.Default.Options.Converters)
            {
                json.SerializerOptions.Converters.Add(converter);
            }
        });
        services.AddEndpointsApiExplorer();
        services.AddSwaggerGen(options =>
        {
            options.SwaggerDoc("v1", new OpenApiInfo { Title = "Accessory exercise recommender for track and field", Version = "1" });
            foreach (var file in Directory.GetFiles(AppContext.BaseDirectory, "Recommender.*.xml"))
            {
                options.IncludeXmlComments(file);
            }
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
}
