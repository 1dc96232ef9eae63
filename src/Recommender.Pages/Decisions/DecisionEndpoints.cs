using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Pages.Hosting;
using Recommender.Storage.Versioning;

namespace Recommender.Pages.Decisions;

/// <summary>/decisions: search the record, walk it, open a decision, ask it again, replay it. Nothing of it goes on record.</summary>
internal static class DecisionEndpoints
{
    private const string Unknown = "There is no decision under this address.";
    private const string Damaged = "The record of this decision is damaged and cannot be read. Walk the record to see where it stops holding, keep the store as it is, and compare it with a backup.";
    private const int LargestForm = 16 * 1024;
    private const int PageSize = 50;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/decisions", List);
        routes.MapPost("/decisions/walk", Walk);
        routes.MapGet("/decisions/{id}", Show);
        routes.MapPost("/decisions/{id}/replay", Replay);
    }

    private static async Task<IResult> List(HttpContext context, FindDecisions decisions, WalkRecord record, KnowledgeVersions versions, SavedAthletes athletes, PageHost host, FormToken token) =>
        RecordPageOf(StatusCodes.Status200OK, await Found(context, null, null, decisions, record, versions, athletes, host, token));

    /// <summary>Walks the chain and says what was found while it goes on.</summary>
    private static async Task<IResult> Walk(HttpContext context, FindDecisions decisions, WalkRecord record, KnowledgeVersions versions, SavedAthletes athletes, PageHost host, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var head = form?["head"].FirstOrDefault()?.Trim().ToLowerInvariant();
        if (form is null || !await token.Fits(context))
        {
            return RecordPageOf(StatusCodes.Status400BadRequest, await Found(context, FormToken.Expired, head, decisions, record, versions, athletes, host, token));
        }

        if (head is { Length: > 0 } && !(head.Length == 64 && head.All(char.IsAsciiHexDigitLower)))
        {
            return RecordPageOf(StatusCodes.Status422UnprocessableEntity, await Found(context, "That is no hash of a record: one has 64 digits, 0 to 9 and a to f. Leave the field empty to walk without one.", head, decisions, record, versions, athletes, host, token));
        }

        var most = (await record.End(host.Organisation)).Records;
        return new StreamedPage<WalkPage>(Steps);

        async IAsyncEnumerable<Piece> Steps([EnumeratorCancellation] CancellationToken cancelled)
        {
            await foreach (var step in record.Along(host.Organisation, head is { Length: > 0 } ? Convert.FromHexString(head) : null, cancelled))
            {
                yield return Piece.Of<WalkStep>((nameof(WalkStep.Step), step), (nameof(WalkStep.Most), most));
            }
        }
    }

    private static Task<IResult> Show(HttpContext context, string id, DecisionOnPage decisions, FormToken token) => Guarded(async () =>
        await decisions.Read(id, context.Request.Query, null, token.For(context)) is { } shown
            ? PageResults.Page<DecisionPage>(shown.Asked.Faults.Count > 0 ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK, (nameof(DecisionPage.Shown), shown))
            : PageResults.NotFound(Unknown));

    /// <summary>Answers the decision again, on its own versions or on those in force.</summary>
    private static Task<IResult> Replay(HttpContext context, string id, DecisionOnPage decisions, ReplayDecision replays, PageHost host, FormToken token) => Guarded(async () =>
    {
        var form = await PostedForm.Read(context, LargestForm);
        if (form is null || !await token.Fits(context))
        {
            return await decisions.Read(id, QueryCollection.Empty, FormToken.Expired, token.For(context)) is { } again
                ? PageResults.Page<DecisionPage>(StatusCodes.Status400BadRequest, (nameof(DecisionPage.Shown), again))
                : PageResults.NotFound(Unknown);
        }

        return await decisions.Read(id, QueryCollection.Empty, null, token.For(context)) is { } shown && await replays.Of(host.Organisation, id, form["on"].FirstOrDefault() == "current") is { } replay
            ? PageResults.Page<ReplayPage>(StatusCodes.Status200OK, (nameof(ReplayPage.Shown), shown), (nameof(ReplayPage.Replay), replay))
            : PageResults.NotFound(Unknown);
    });

    /// <summary>A damaged record gives a page that says so.</summary>
    private static async Task<IResult> Guarded(Func<Task<IResult>> page)
    {
        try
        {
            return await page();
        }
        catch (InvalidDataException)
        {
            return PageResults.Message(StatusCodes.Status500InternalServerError, "This decision cannot be read", Damaged);
        }
    }

    private static async Task<ShownRecord> Found(HttpContext context, string? notice, string? head, FindDecisions decisions, WalkRecord record, KnowledgeVersions versions, SavedAthletes athletes, PageHost host, FormToken token)
    {
        var squad = await athletes.All(host.Organisation);
        var kept = (await versions.List(host.Organisation, KnowledgeKind.Catalogue)).Concat(await versions.List(host.Organisation, KnowledgeKind.Rules)).Select(v => v.Version).ToList();
        var search = DecisionSearch.Of(context.Request.Query, squad, host.Edition.Catalogue, kept);
        return new ShownRecord(search, await decisions.Page(host.Organisation, search.Filter, search.After, PageSize), await record.End(host.Organisation), squad, host.Edition, notice, head, token.For(context));
    }

    private static RazorComponentResult<RecordPage> RecordPageOf(int status, ShownRecord shown) => PageResults.Page<RecordPage>(status, (nameof(RecordPage.Shown), shown));
}
