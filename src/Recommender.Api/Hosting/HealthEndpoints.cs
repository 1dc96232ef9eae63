using Recommender.Api.Overload;
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
    /// <remarks>Writes one mark to the store, so that a full or read-only disk shows. A replica that was asked to stop, or has been turning requests away for some while, is not ready either.</remarks>
    /// <param name="store">The store.</param>
    /// <param name="drain">Knows whether the replica was asked to stop.</param>
    /// <param name="admission">Knows whether it has been turning requests away.</param>
    /// <response code="200">They can.</response>
    /// <response code="503">They cannot now, or this replica takes no more work.</response>
    private static IResult Ready(Store store, Drain drain, Admission admission)
    {
        if (drain.Draining)
        {
            return Problem.Of(ProblemTypes.NotReady, "This replica was asked to stop; ask another one.");
        }

        if (admission.OverloadedForLong)
        {
            return Problem.Of(ProblemTypes.NotReady, "More is asked of this replica than it can answer, and has been for some while; ask another one.");
        }

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
