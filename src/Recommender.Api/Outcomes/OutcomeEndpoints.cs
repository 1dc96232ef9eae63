using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Outcomes;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Outcomes;

/// <summary>POST and GET /v1/decisions/{id}/outcomes.</summary>
public static class OutcomeEndpoints
{
    private const string NoDecision = "There is no decision of this id.";

    private static Problem AthleteErased => Problem.Of(ProblemTypes.StateForbids, "The athlete of this decision was erased, so nothing more is kept about them; report on a decision of another.");

    /// <summary>Maps the slice.</summary>
    public static void MapOutcomes(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/v1/decisions/{id}/outcomes", Report).WithTags("Decisions").WithName("reportOutcome").Accepts<OutcomeReport>("application/json")
            .Produces<OutcomeBody>(contentType: "application/json").Produces<OutcomeBody>(StatusCodes.Status201Created, "application/json")
            .MayAnswer([.. OpenApiProblems.OfBodies, ProblemTypes.NotFound, ProblemTypes.StateForbids]);
        routes.MapGet("/v1/decisions/{id}/outcomes", List).WithTags("Decisions").WithName("listOutcomes")
            .Produces<OutcomeList>(contentType: "application/json").MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
    }

    /// <summary>What was done with a pick and how it went.</summary>
    /// <remarks>
    /// Used, swapped for another exercise, or declined; with it, where something was done, sets, pain during the work and next morning, effort on the 0 to 10 scale of perceived effort, and a note.
    /// Reports are appended. The last about a pick counts, so a later one corrects: it is sent whole, with what still holds. The same report again changes nothing. A swap for an
    /// exercise that a gate of the decision refused is kept and never learned from. Pain that rose lowers this athlete's limits for a while, by rule.
    /// </remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Carries the body.</param>
    /// <param name="outcomes">Takes reports.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time of a claim.</param>
    /// <response code="200">The report as it is kept; the last one said the same already.</response>
    /// <response code="201">The report as it is kept.</response>
    /// <response code="404">There is no decision of this id.</response>
    /// <response code="409">The athlete of the decision was erased, or the key belongs to another request.</response>
    private static async Task<IResult> Report(string id, HttpContext context, ReportOutcome outcomes, IDecisionLog log, TimeProvider clock)
    {
        var (posted, atOnce) = await Posted.Read(context, BodyReader.SingleLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<OutcomeReport>(posted.Body, out var fault) is not { } report)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        var reported = await outcomes.Take(context.Caller().Organisation, id, report);
        return reported.State switch
        {
            ReportState.NoDecision => Problem.Of(ProblemTypes.NotFound, NoDecision),
            ReportState.AthleteErased => AthleteErased,
            ReportState.Faulty => Problem.Of(ProblemTypes.Invalid, reported.Faults),
            _ => await posted.Keep(context.Caller().Organisation, JsonSerializer.SerializeToUtf8Bytes(reported.Kept!, WireJson.Default.OutcomeBody), log, clock,
                reported.State == ReportState.Appended ? StatusCodes.Status201Created : StatusCodes.Status200OK, (id, reported.AthleteRef), AthleteErased),
        };
    }

    /// <summary>Reports about the picks of a decision.</summary>
    /// <remarks>All of them, corrected ones too, oldest first.</remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="outcomes">Gives reports.</param>
    /// <response code="200">The reports.</response>
    /// <response code="404">There is no decision of this id.</response>
    private static async Task<IResult> List(string id, HttpContext context, ReportOutcome outcomes) =>
        await outcomes.OfDecision(context.Caller().Organisation, id) is { } list
            ? new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(list, WireJson.Default.OutcomeList))
            : Problem.Of(ProblemTypes.NotFound, NoDecision);
}
