using System.Globalization;
using Microsoft.OpenApi;
using Recommender.Answers.Access;
using Recommender.Api.Access;
using Recommender.Api.Problems;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The key that each operation asks for, by the table of permissions, and what is answered to one who has none or asks too often.</summary>
internal sealed class OpenApiAccess : IOperationFilter, IDocumentFilter
{
    private const string Name = "accessKey";
    private static readonly ProblemType[] OfKeys = [ProblemTypes.KeyNeeded, ProblemTypes.ScopeMissing, ProblemTypes.TooMany];

    /// <inheritdoc/>
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        var permission = Permissions.Of(context.ApiDescription.HttpMethod ?? "", context.ApiDescription.RelativePath ?? "");
        if (permission is not { KeyNeeded: true })
        {
            operation.Security = [];
            return;
        }

        operation.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(Name, context.Document)] = [.. ScopeWords.Of(permission.Scopes)] }];
        var problem = context.SchemaGenerator.GenerateSchema(typeof(ProblemBody), context.SchemaRepository);
        var gives = operation.Responses!.Any(r => r.Key[0] == '2' && r.Value.Content?.Count > 0);
        foreach (var type in gives ? [.. OfKeys, ProblemTypes.NotAcceptable] : OfKeys)
        {
            operation.Responses!.TryAdd(type.Status.ToString(CultureInfo.InvariantCulture), new OpenApiResponse { Description = "", Content = new Dictionary<string, IOpenApiMediaType> { ["application/problem+json"] = new OpenApiMediaType { Schema = problem } } });
        }

        var ordered = operation.Responses!.OrderBy(r => r.Key, StringComparer.Ordinal).ToList();
        operation.Responses!.Clear();
        ordered.ForEach(r => operation.Responses.Add(r.Key, r.Value));
    }

    /// <inheritdoc/>
    public void Apply(Microsoft.OpenApi.OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        swaggerDoc.Components!.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>();
        swaggerDoc.Components.SecuritySchemes[Name] = new OpenApiSecurityScheme
        {
            Type = SecuritySchemeType.Http,
            Scheme = "bearer",
            BearerFormat = KeySecret.Prefix + "ID_SECRET",
            Description = "A key of your organisation, sent as Authorization: Bearer. What is listed beside it is the scope that the key must have: recommend, audit, curate or admin. On a loopback address no key is asked for until the first one is made.",
        };
    }
}
