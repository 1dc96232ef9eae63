using System.Text.Json;
using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Decisions;

/// <summary>The record: GET /v1/decisions, /v1/decisions/{id}, /v1/decisions/export and POST /v1/decisions/verify.</summary>
public static class DecisionEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapDecisions(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/decisions", List).WithTags("Decisions").WithName("listDecisions")
            .Produces<DecisionList>(contentType: "application/json").MayAnswer(ProblemTypes.Malformed, ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/decisions/export", Export).WithTags("Decisions").WithName("exportDecisions")
            .Produces<DecisionBody>(contentType: DecisionExport.NdjsonType).MayAnswer(ProblemTypes.Malformed, ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/decisions/{id}", One).WithTags("Decisions").WithName("getDecision")
            .Produces<DecisionBody>(contentType: "application/json").MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        routes.MapPost("/v1/decisions/verify", Verify).WithTags("Decisions").WithName("verifyDecisions")
            .Accepts<VerifyRequest>(isOptional: true, "application/json").Produces<Verification>(contentType: "application/json").MayAnswer(OpenApiProblems.OfBodies);
    }

    /// <summary>List and search the record.</summary>
    /// <remarks>Newest first. Filters narrow one another; an exercise is found where it was picked or replaced.</remarks>
    /// <param name="context">Carries the query.</param>
    /// <param name="decisions">Finds records.</param>
    /// <response code="200">Decisions, with the cursor of the next page.</response>
    /// <response code="400">A filter is unknown or its value cannot be used.</response>
    private static async Task<IResult> List(HttpContext context, FindDecisions decisions)
    {
        var (filter, after, limit, faults) = DecisionQuery.Page(context.Request.Query);
        if (faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Malformed, faults);
        }

        var found = await decisions.Page(context.Caller().Organisation, filter, after, limit);
        return new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(new DecisionList([.. found.Items.Select(DecisionLine.Of)], found.Next is { } next ? DecisionQuery.Cursor(next) : null), ApiJson.Default.DecisionList));
    }

    /// <summary>The record as a file.</summary>
    /// <remarks>
    /// Streamed, oldest first, with the filters of the list. As NDJSON (the default) each line is a whole record as GET /v1/decisions/{id} gives it, with the
    /// reports about its picks. As CSV (RFC 4180) each row holds what a list shows, with the exercises and the hashes, and no reports; an apostrophe stands before a cell that a spreadsheet would take for a formula.
    /// A reader who takes nothing for long, or less than 32 KB a second, loses the connection: a file that does not end with its last chunk is not whole.
    /// </remarks>
    /// <param name="context">Carries the query.</param>
    /// <param name="decisions">Reads records.</param>
    /// <param name="outcomes">Gives the reports about them.</param>
    /// <response code="200">Records, one a line.</response>
    /// <response code="400">A filter is unknown or its value cannot be used.</response>
    private static IResult Export(HttpContext context, DecisionReader decisions, ReportOutcome outcomes)
    {
        var (filter, csv, faults) = DecisionQuery.Export(context.Request.Query);
        var organisation = context.Caller().Organisation;
        return faults.Count > 0 ? Problem.Of(ProblemTypes.Malformed, faults)
            : new DecisionExport(csv ? decisions.ReadAll(organisation, filter).Select(d => (d, (IReadOnlyList<OutcomeBody>)[])) : outcomes.Beside(organisation, decisions.ReadAllWithReports(organisation, filter)), csv);
    }

    /// <summary>One decision, as it was stored.</summary>
    /// <remarks>The request as sent, the answer byte for byte, the versions it was made on, and the hashes that chain it to the record before; beside it the reports about its picks.</remarks>
    /// <param name="id">Decision id.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="decisions">Opens records.</param>
    /// <param name="outcomes">Gives the reports about it.</param>
    /// <response code="200">The record.</response>
    /// <response code="404">There is no decision of this id.</response>
    private static async Task<IResult> One(string id, HttpContext context, ReadDecision decisions, ReportOutcome outcomes)
    {
        if (await decisions.Open(context.Caller().Organisation, id) is not { } found)
        {
            return Problem.Of(ProblemTypes.NotFound, "There is no decision of this id.");
        }

        var reports = await outcomes.OfRecord(context.Caller().Organisation, id);
        return new JsonBytes(DecisionBody.Bytes(found.Stored, found.Request, reports));
    }

    /// <summary>Walk the chain.</summary>
    /// <remarks>
    /// From the first record on: every hash is computed again, and every table that repeats what a record says is held against it. The first record that does not fit is named with what is
    /// wrong. The body may be left out.
    /// </remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="verifier">Walks chains.</param>
    /// <param name="log">Keeps answers under keys.</param>
    /// <param name="clock">Gives the time of a claim.</param>
    /// <response code="200">What was found; a broken chain is an answer, not a problem.</response>
    private static async Task<IResult> Verify(HttpContext context, ChainVerifier verifier, IDecisionLog log, TimeProvider clock)
    {
        var (posted, atOnce) = await Posted.ReadOptional(context, BodyReader.SingleLimit, log, clock);
        if (posted is null)
        {
            return atOnce!;
        }

        if (RequestReader.Read<VerifyRequest>(posted.Body, out var fault) is not { } request)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        if (request.Head is { } head && !(head.Length == 64 && head.All(char.IsAsciiHexDigitLower)))
        {
            return Problem.Of(ProblemTypes.Invalid, new Domain.Requests.Fault("/head", "wrong-type", "head is no hash; give the 64 lower-case hexadecimal digits of a head or hash of this record."));
        }

        var check = await verifier.Verify(context.Caller().Organisation, request.Head is null ? null : Convert.FromHexString(request.Head), cancellation: context.RequestAborted);
        return await posted.Keep(context.Caller().Organisation, JsonSerializer.SerializeToUtf8Bytes(Verification.Of(check), ApiJson.Default.Verification), log, clock);
    }
}
