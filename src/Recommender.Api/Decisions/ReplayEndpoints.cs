using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Decisions;

/// <summary>POST /v1/decisions/{id}/replay.</summary>
public static class ReplayEndpoints
{
    private const string Stored = "stored";
    private const string Current = "current";

    /// <summary>Maps the slice.</summary>
    public static void MapReplay(this IEndpointRouteBuilder routes) =>
        routes.MapPost("/v1/decisions/{id}/replay", Replay).WithTags("Decisions").WithName("replayDecision").Accepts<ReplayRequest>(isOptional: true, "application/json")
            .Produces<Answers.Replay>(contentType: "application/json").MayAnswer([ProblemTypes.NotFound, .. OpenApiProblems.OfBodies]);

    /// <summary>Answer a decision again.</summary>
    /// <remarks>
    /// On the versions that it was made on, the same engine gives the same bytes. On those in force it says what differs, and which changed number makes each difference: every change is made alone and the
    /// request answered on it. Nothing is recorded. The body may be left out.
    /// </remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Carries the body.</param>
    /// <param name="replays">Answers again.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time of a claim.</param>
    /// <response code="200">What became of it.</response>
    /// <response code="404">There is no decision of this id.</response>
    private static async Task<IResult> Replay(string id, HttpContext context, ReplayDecision replays, IDecisionLog log, TimeProvider clock)
    {
        var (posted, atOnce) = await Posted.ReadOptional(context, BodyReader.SingleLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<ReplayRequest>(posted.Body, out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (request.On is not (null or Stored or Current))
        {
            return Problem.Of(ProblemTypes.Invalid, new Fault("/on", "unknown-id", $"on is \"{request.On}\"; give {Stored} or {Current}."));
        }

        return await replays.Of(context.Caller().Organisation, id, request.On == Current) is { } replay
            ? await posted.Keep(context.Caller().Organisation, JsonSerializer.SerializeToUtf8Bytes(replay, ApiJson.Default.Replay), log, clock)
            : Problem.Of(ProblemTypes.NotFound, "There is no decision of this id.");
    }
}
