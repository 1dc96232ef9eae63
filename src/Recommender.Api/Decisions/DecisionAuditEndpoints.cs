using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Audit;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Decisions;

/// <summary>GET /v1/decisions/{id}/comparison, /counterfactuals and /sensitivity.</summary>
public static class DecisionAuditEndpoints
{
    private const string NoDecision = "There is no decision of this id.";

    /// <summary>Maps the slice.</summary>
    public static void MapDecisionAudit(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/decisions/{id}/comparison", Compare).WithTags("Decisions").WithName("compareExercises")
            .Produces<ComparisonAnswer>(contentType: "application/json").MayAnswer(ProblemTypes.Malformed, ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/decisions/{id}/counterfactuals", Change).WithTags("Decisions").WithName("findCounterfactuals")
            .Produces<CounterfactualsAnswer>(contentType: "application/json").MayAnswer(ProblemTypes.Malformed, ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/decisions/{id}/sensitivity", Vary).WithTags("Decisions").WithName("analyseSensitivity")
            .Produces<SensitivityAnswer>(contentType: "application/json").MayAnswer(ProblemTypes.Malformed, ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Why one exercise stands above another in a decision.</summary>
    /// <remarks>
    /// Any two exercises of the catalogue, picked, eligible or left out: the points of every factor on both sides, the fewest factors that decide the order, and one plain
    /// sentence. An exercise that was left out is compared by the points it would have had; its refusals stand beside it. In a substitution likeness decides, not points; the
    /// members of a session are compared by their own points, while the set is chosen as a whole. The decision is asked again; nothing goes on record.
    /// </remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Carries the query.</param>
    /// <param name="audit">Asks decisions again.</param>
    /// <response code="200">The comparison.</response>
    /// <response code="400">An exercise is missing, unknown, given twice or the same as the other. The nearest id is named.</response>
    /// <response code="404">There is no decision of this id, or the versions that it was made on are not kept here.</response>
    private static async Task<IResult> Compare(string id, HttpContext context, AuditDecision audit)
    {
        var query = AuditQuery.Read(context.Request.Query, AuditQuery.OfComparison);
        if (query.Faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Malformed, query.Faults);
        }

        return await audit.Compare(context.Caller().Organisation, id, query["first"], query["second"]) switch
        {
            null => Problem.Of(ProblemTypes.NotFound, NoDecision),
            { Answer: { } answer } => new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(answer, WireJson.Default.ComparisonAnswer)),
            var wrong => Problem.Of(ProblemTypes.Malformed, wrong.Faults),
        };
    }

    /// <summary>What would have brought an exercise first, or in.</summary>
    /// <remarks>
    /// The smallest changes of the request, by the costs in the rules: a thing more at hand, a need raised or lowered, whole weeks, a place, a phase, whole points of pain. Every
    /// single change of the list is tried; pairs where no single one does, but for sessions, where a set is solved for each. Each one that is offered was run through the whole
    /// line. Pointers refer to the request as sent; a list that was not there is set whole, a last part - appends, null takes out; changes hold in the order given. What nobody
    /// can change, such as age or event, is not among them. Changes that lower pain say how the rule works and are no advice; they are for staff.
    /// </remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Carries the query.</param>
    /// <param name="audit">Asks decisions again.</param>
    /// <response code="200">Changes, smallest first; or why there are none.</response>
    /// <response code="400">The exercise is missing, unknown or given twice. The nearest id is named.</response>
    /// <response code="404">There is no decision of this id, or the versions that it was made on are not kept here.</response>
    private static async Task<IResult> Change(string id, HttpContext context, AuditDecision audit)
    {
        var query = AuditQuery.Read(context.Request.Query, AuditQuery.OfCounterfactuals);
        if (query.Faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Malformed, query.Faults);
        }

        // Open use on loopback, before there are keys, counts as every scope, the audit's too.
        return await audit.Change(context.Caller().Organisation, id, query["exercise"], mayLowerPain: true) switch
        {
            null => Problem.Of(ProblemTypes.NotFound, NoDecision),
            { Answer: { } answer } => new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(answer, WireJson.Default.CounterfactualsAnswer)),
            var wrong => Problem.Of(ProblemTypes.Malformed, wrong.Faults),
        };
    }

    /// <summary>How firm the first place of a decision is.</summary>
    /// <remarks>
    /// The share of seeded samples in which the first pick stays first while every modelled, common-practice and recalled number that the order rests on moves: loads inside
    /// their intervals, ratings by a step in the share of draws that the rules give, other numbers by the rules' share. Published numbers, what the request states and what the gates
    /// said stay. With it: what came first instead, and the numbers that move the first place most, each moved alone to both ends. The same seed on the same versions gives the
    /// same samples on every machine. For a session: whether the exercise that stands first keeps its place against every exchange that the limits allow.
    /// </remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Carries the query, which takes nothing.</param>
    /// <param name="audit">Asks decisions again.</param>
    /// <response code="200">The share, the rivals and what moves it.</response>
    /// <response code="400">The query holds something; this call takes no query.</response>
    /// <response code="404">There is no decision of this id, or the versions that it was made on are not kept here.</response>
    private static async Task<IResult> Vary(string id, HttpContext context, AuditDecision audit)
    {
        var query = AuditQuery.Read(context.Request.Query, []);
        if (query.Faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Malformed, query.Faults);
        }

        return await audit.Vary(context.Caller().Organisation, id) is { } answer
            ? new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(answer, WireJson.Default.SensitivityAnswer))
            : Problem.Of(ProblemTypes.NotFound, NoDecision);
    }
}
