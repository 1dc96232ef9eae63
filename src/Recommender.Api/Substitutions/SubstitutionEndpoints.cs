using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Domain.Substitutions;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Substitutions;

/// <summary>POST /v1/substitutions and /v1/substitutions/batch.</summary>
public static class SubstitutionEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapSubstitutions(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/v1/substitutions", One).WithTags("Substitutions").WithName("substitute")
            .Accepts<SubstitutionRequest>("application/json").Produces<SubstitutionAnswer>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
        routes.MapPost("/v1/substitutions/batch", Many).WithTags("Substitutions").WithName("substituteBatch")
            .Accepts<SubstitutionBatch>("application/json").Produces<SubstitutionBatchAnswers>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
    }

    /// <summary>What may stand in for an exercise, best first.</summary>
    /// <remarks>
    /// Likeness is about purpose: what the replaced exercise was there for in this athlete's needs; then movement, support, direction, speed and load. The gates are those of a
    /// recommendation. Each answer says what it keeps, loses and gains, and carries the dose over. The replaced exercise may be described by its tags where the catalogue does not
    /// know it. Where nothing keeps the purpose, the nearest are offered and the answer says so; nothing is filled in. The decision is on record before the answer leaves.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">What may stand in; its status says whether there is anything, a referral, or nothing eligible.</response>
    private static async Task<IResult> One(HttpContext context, AnswerSubstitution answers, IDecisionLog log, TimeProvider clock) =>
        await DecisionPost.One(context, answers, log, clock);

    /// <summary>Many substitutions at once, answered in order.</summary>
    /// <remarks>Each place holds an answer or a problem, whose pointers start at /requests/N. All decisions of a batch are stored together.</remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">One place a request.</response>
    private static async Task<IResult> Many(HttpContext context, AnswerSubstitution answers, IDecisionLog log, TimeProvider clock) =>
        await DecisionPost.Many<SubstitutionBatch, SubstitutionRequest, SubstitutionAnswer>(context, answers, batch => batch.Requests, log, clock);
}
