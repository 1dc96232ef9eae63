using Recommender.Answers;
using Recommender.Api.Hosting;
using Recommender.Domain.Sessions;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Sessions;

/// <summary>POST /v1/sessions.</summary>
public static class SessionEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapSessions(this IEndpointRouteBuilder routes) =>
        routes.MapPost("/v1/sessions", One).WithTags("Sessions").WithName("composeSession")
            .Accepts<SessionRequest>("application/json").Produces<SessionAnswer>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);

    /// <summary>A session chosen as a whole: picks in order, dosed, inside time and tissue budgets.</summary>
    /// <remarks>
    /// The context is the body of a recommendation; its setting.minutes are those of the session. The set is the best there is by what it covers of the needs, each further pick for
    /// one need bringing less, and by the picks' own scores; optimality says whether that is proven. It keeps the minutes, the slots, the budgets with the last days' work, one of a
    /// family, balance, and the landings of a session. Sore regions without a budget get one from the rules, listed under assumed. Locked exercises stay, avoided ones go; picks of a
    /// previous decision stay while little is lost. A locked exercise that a gate refuses is told with its reason, and no session is given: nothing is chosen around what is not safe.
    /// Tissue totals are work done, never what a tissue can stand. The decision is on record before the answer leaves. Training guidance, not medical advice.
    /// </remarks>
    /// <param name="context">Carries body and headers.</param>
    /// <param name="answers">Answers requests.</param>
    /// <param name="log">Keeps decisions.</param>
    /// <param name="clock">Gives the time.</param>
    /// <response code="200">The session; its status says whether there is one, a referral, or what stands in the way.</response>
    private static async Task<IResult> One(HttpContext context, AnswerSession answers, IDecisionLog log, TimeProvider clock) =>
        await DecisionPost.One(context, answers, log, clock);
}
