using Recommender.Api.Problems;
using Recommender.Storage;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Hosting;

/// <summary>Whether the service lives and whether it can answer.</summary>
/// <param name="Status">ok.</param>
public sealed record Health(string Status);

/// <summary>GET /health/live and /health/ready.</summary>
public static class HealthEndpoints
{
    private static readonly byte[] Ok = "{\"status\":\"ok\"}"u8.ToArray();

    /// <summary>Maps the slice.</summary>
    public static void MapHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/health/live", Live).WithTags("Operations").WithName("live").Produces<Health>(contentType: "application/json");
        routes.MapGet("/health/ready", Ready).WithTags("Operations").WithName("ready").Produces<Health>(contentType: "application/json").MayAnswer(ProblemTypes.StoreUnavailable);
    }

    /// <summary>The process answers.</summary>
    /// <remarks>Says nothing about the store; see /health/ready.</remarks>
    /// <response code="200">It does.</response>
    private static JsonBytes Live() => new(Ok);

    /// <summary>Decisions can be stored and read.</summary>
    /// <remarks>Writes one mark to the store, so that a full or read-only disk shows.</remarks>
    /// <param name="store">The store.</param>
    /// <response code="200">They can.</response>
    /// <response code="503">They cannot now.</response>
    private static IResult Ready(Store store)
    {
        try
        {
            store.TryWrite();
            return new JsonBytes(Ok);
        }
        catch (StoreUnavailableException)
        {
            return Problem.Of(ProblemTypes.StoreUnavailable, "The store cannot be written now.");
        }
    }
}
