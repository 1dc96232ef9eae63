using System.Globalization;
using Microsoft.OpenApi;
using Recommender.Api.Problems;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace Recommender.Api.Hosting;

/// <summary>The problems that an operation may answer with.</summary>
internal sealed class OpenApiProblems : IOperationFilter
{
    private static readonly Dictionary<ProblemType, string> Descriptions = new()
    {
        [ProblemTypes.Malformed] = "The body cannot be read: not JSON, a wrong JSON type, an unknown or repeated property, or nested too deep; or the Idempotency-Key is not one plain ASCII text.",
        [ProblemTypes.Invalid] = "The body was understood but holds values that cannot be used: out of range, unknown ids, an impossible test value, a contradiction. Every one is listed.",
        [ProblemTypes.KeyNeeded] = "No key was sent where one is needed, or one that does not hold.",
        [ProblemTypes.ScopeMissing] = "The key lacks the scope that this call needs.",
        [ProblemTypes.NotAcceptable] = "Accept takes nothing that this call gives.",
        [ProblemTypes.TooMany] = "The key asks more often than it may. Send the same request again after Retry-After seconds.",
        [ProblemTypes.KeyConflict] = "The Idempotency-Key was sent with another body in the last 24 hours.",
        [ProblemTypes.TooLarge] = "The body is larger than this call reads.",
        [ProblemTypes.UnsupportedMediaType] = "The content type is not application/json, or the body is sent in a content coding.",
        [ProblemTypes.StoreUnavailable] = "Decisions cannot be stored or read now, or too much is asked at once; nothing was stored. Send the same request again after Retry-After seconds.",
    };

    /// <summary>What reading a body may answer with.</summary>
    public static ProblemType[] OfBodies { get; } =
        [ProblemTypes.Malformed, ProblemTypes.KeyConflict, ProblemTypes.TooLarge, ProblemTypes.UnsupportedMediaType, ProblemTypes.Invalid, ProblemTypes.StoreUnavailable];

    /// <inheritdoc/>
    public void Apply(OpenApiOperation operation, OperationFilterContext context)
    {
        if (operation.OperationId != "live" && !operation.Responses!.ContainsKey("503"))
        {
            operation.Responses.Add("503", new OpenApiResponse
            {
                Description = "Too much is asked at once; nothing was done. Send the same request again after Retry-After seconds.",
                Content = new Dictionary<string, IOpenApiMediaType>
                {
                    ["application/problem+json"] = new OpenApiMediaType { Schema = context.SchemaGenerator.GenerateSchema(typeof(ProblemBody), context.SchemaRepository) },
                },
            });
        }

        foreach (var (type, description) in Descriptions)
        {
            if (!operation.Responses!.TryGetValue(type.Status.ToString(CultureInfo.InvariantCulture), out var found) || found is not OpenApiResponse response)
            {
                continue;
            }

            // A slice that says it in a sentence of its own keeps it; what the framework puts there is a bare phrase.
            if (response.Description?.EndsWith('.') != true)
            {
                response.Description = description;
            }

            if (type == ProblemTypes.StoreUnavailable || type == ProblemTypes.TooMany)
            {
                response.Headers = new Dictionary<string, IOpenApiHeader>
                {
                    ["Retry-After"] = new OpenApiHeader { Description = "Seconds to wait.", Required = true, Schema = new OpenApiSchema { Type = JsonSchemaType.Integer, Minimum = "1" } },
                };
            }
        }
    }
}

/// <summary>Says in a slice which problems it may answer with.</summary>
internal static class ProblemMetadata
{
    /// <summary>Adds the problems to the endpoint's description.</summary>
    public static RouteHandlerBuilder MayAnswer(this RouteHandlerBuilder endpoint, params ProblemType[] types) =>
        endpoint.WithMetadata([.. types.Select(t => (object)new ProducesResponseTypeMetadata(t.Status, typeof(ProblemBody), ["application/problem+json"]))]);
}
