using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Needs;

/// <summary>POST /v1/needs.</summary>
public static class NeedsEndpoints
{
    /// <summary>Path of the call.</summary>
    public const string Path = "/v1/needs";

    /// <summary>Properties of a recommendation that choose among exercises, and so are unknown here.</summary>
    public static IReadOnlyList<string> OfChoosing { get; } = ["exclude", "only", "count", "perFamily"];

    /// <summary>Maps the slice.</summary>
    public static void MapNeeds(this IEndpointRouteBuilder routes) =>
        routes.MapPost(Path, One).WithTags("Needs").WithName("analyseNeeds")
            .Accepts<RecommendationRequest>("application/json").Produces<NeedsAnswer>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);

    /// <summary>What one athlete needs, and from where.</summary>
    /// <remarks>
    /// The same analysis that a recommendation starts with, from the body of a recommendation without count, exclude and only: event and phase, the coach, complaints and tests.
    /// Each measure that the tests give is shown with its formula, the threshold that says most about it and what it raises. A test raises a need by a capped share only: nothing
    /// inside measurement error or from a single trial, half when trials are not stated, less when over ten weeks old, nothing when testing hurt. A flag suggests; it forbids nothing.
    /// No decision goes on record. Training guidance, not medical advice.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Tells needs.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">Needs with their weights, what the tests show, cautions, and a referral where there is one.</response>
    private static async Task<IResult> One(HttpContext context, AnswerNeeds answers, IDecisionLog log, TimeProvider clock)
    {
        var (posted, atOnce) = await Posted.Read(context, BodyReader.SingleLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.ReadWithout<RecommendationRequest>(posted.Body, [.. OfChoosing], out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        var outcome = await answers.One(request, context.Caller().Organisation, posted.Claim);
        return outcome.Faults.Count > 0 ? Problem.Of(ProblemTypes.Invalid, outcome.Faults)
            : outcome.KeyTaken ? await posted.Taken(log, clock)
            : new JsonBytes(outcome.Sent!);
    }
}
