using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Recommendations;

/// <summary>POST /v1/recommendations and /v1/recommendations/batch.</summary>
public static class RecommendationEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapRecommendations(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/v1/recommendations", One).WithTags("Recommendations").WithName("recommend")
            .Accepts<RecommendationRequest>("application/json").Produces<Answer>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
        routes.MapPost("/v1/recommendations/batch", Many).WithTags("Recommendations").WithName("recommendBatch")
            .Accepts<RecommendationBatch>("application/json").Produces<BatchAnswers>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
    }

    /// <summary>Ranked, dosed and explained exercises for one athlete.</summary>
    /// <remarks>
    /// Required: athlete.eventGroup (or athlete.event) and phase; the answer lists what was taken for the rest. The contributions of a pick sum to its score exactly.
    /// A red flag answers with a referral: without picks, or with picks that spare the region. Nothing is filled in to make the list long enough.
    /// The decision is on record, durably, before the answer leaves. Training guidance, not medical advice.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">The answer; its status says whether there are picks, a referral, or nothing eligible.</response>
    private static async Task<IResult> One(HttpContext context, AnswerRecommendation answers, IDecisionLog log, TimeProvider clock) =>
        await DecisionPost.One(context, answers, log, clock);

    /// <summary>Many requests at once, answered in order.</summary>
    /// <remarks>
    /// Each place holds an answer or a problem, whose pointers start at /requests/N. A request that cannot be used does not hold up the others.
    /// All decisions of a batch are stored together.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">One place a request.</response>
    private static async Task<IResult> Many(HttpContext context, AnswerRecommendation answers, IDecisionLog log, TimeProvider clock) =>
        await DecisionPost.Many<RecommendationBatch, RecommendationRequest, Answer>(context, answers, batch => batch.Requests, log, clock);
}
