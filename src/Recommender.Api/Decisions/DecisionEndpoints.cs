using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;

namespace Recommender.Api.Decisions;

/// <summary>GET /v1/decisions/{id}.</summary>
public static class DecisionEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapDecisions(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/v1/decisions/{id}", One).WithTags("Decisions").WithName("getDecision")
            .Produces<DecisionBody>(contentType: "application/json").MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);

    /// <summary>One decision, as it was stored.</summary>
    /// <remarks>The request as sent, the answer byte for byte, the versions it was made on, and the hashes that chain it to the record before.</remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="decisions">Opens records.</param>
    /// <response code="200">The record.</response>
    /// <response code="404">There is no decision of this id.</response>
    private static async Task<IResult> One(string id, ReadDecision decisions) =>
        await decisions.Open(Organisation.Local, id) is { } found
            ? new JsonBytes(DecisionBody.Bytes(found.Stored, found.Request))
            : Problem.Of(ProblemTypes.NotFound, "There is no decision of this id.");
}
