using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Sessions;

/// <summary>/sessions: ask for a session, look at it, keep or leave out and choose again, print.</summary>
internal static class SessionEndpoints
{
    private const string Unknown = "There is no session under this address.";
    private const int LargestForm = 256 * 1024;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/sessions", AskFor);
        routes.MapPost("/sessions", Compose);
        routes.MapGet("/sessions/{id}", Show);
        routes.MapGet("/sessions/{id}/print", Print);
        routes.MapPost("/sessions/{id}/again", Again);
    }

    private static async Task<IResult> AskFor(HttpContext context, string? athlete, string? decision, PageHost host, AskSource source, SavedAthletes athletes, FormToken token) =>
        AskEndpoints.Page(StatusCodes.Status200OK, await AskEndpoints.Start(context, athlete, decision, host, source, athletes, token) with { Session = true });

    private static async Task<IResult> Compose(HttpContext context, PageHost host, AskSource source, SavedAthletes athletes, AnswerSession sessions, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return AskEndpoints.TooLarge;
        }

        var typed = Typed.Of(form);
        var posted = await AskEndpoints.Posted(context, typed, host, source, athletes, token);
        if (posted.AtOnce is { } status)
        {
            return AskEndpoints.Page(status, posted.Form with { Session = true });
        }

        var (request, unread) = new RequestForm(typed, posted.Form.Basis, host.Edition).ReadSession();
        var faults = unread.Count > 0
            ? [.. unread, .. DecisionKind.Session.Faults(request, host.Edition).Where(f => unread.All(u => u.Pointer != f.Pointer))]
            : (IReadOnlyList<Fault>)[];
        if (faults.Count == 0)
        {
            var outcome = await sessions.One(request, host.Organisation, claim: null);
            if (outcome.Faults.Count == 0)
            {
                return new SeeOther("/sessions/" + outcome.Answer!.DecisionId);
            }

            faults = outcome.Faults;
        }

        return AskEndpoints.Page(StatusCodes.Status422UnprocessableEntity, posted.Form with { Session = true, Faults = [.. faults.Select(FormWords.Plain)] });
    }

    private static async Task<IResult> Show(HttpContext context, string id, OpenDecision decisions, SavedAthletes athletes, PageHost host, FormToken token) =>
        await Read(id, null, decisions, athletes, host, token.For(context)) is { } shown
            ? PageResults.Page<SessionPage>(StatusCodes.Status200OK, (nameof(SessionPage.Shown), shown))
            : PageResults.NotFound(Unknown);

    private static async Task<IResult> Print(string id, OpenDecision decisions, SavedAthletes athletes, PageHost host) =>
        await Read(id, null, decisions, athletes, host, "") is { } shown
            ? PageResults.Page<SessionPrintPage>(StatusCodes.Status200OK, (nameof(SessionPrintPage.Shown), shown))
            : PageResults.NotFound(Unknown);

    /// <summary>Chooses again: what is kept is locked, what is left out is avoided, and the rest stays where little is lost.</summary>
    private static async Task<IResult> Again(HttpContext context, string id, OpenDecision decisions, SavedAthletes athletes, AnswerSession sessions, PageHost host, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        if (form is null || !await token.Fits(context))
        {
            return await Read(id, FormToken.Expired, decisions, athletes, host, token.For(context)) is { } again
                ? PageResults.Page<SessionPage>(StatusCodes.Status400BadRequest, (nameof(SessionPage.Shown), again))
                : PageResults.NotFound(Unknown);
        }

        if (await decisions.Session(host.Organisation, id) is not { } opened)
        {
            return PageResults.NotFound(Unknown);
        }

        var typed = Typed.Of(form);
        var locked = typed.All("locked");
        var avoid = typed.All("avoid");
        var request = opened.Request with { Locked = locked.Count == 0 ? null : locked, Avoid = avoid.Count == 0 ? null : avoid, PreviousDecision = id };
        var outcome = await sessions.One(request, host.Organisation, claim: null);
        return outcome.Faults.Count == 0
            ? new SeeOther("/sessions/" + outcome.Answer!.DecisionId)
            : PageResults.Page<SessionPage>(StatusCodes.Status422UnprocessableEntity,
                (nameof(SessionPage.Shown), (await Read(id, string.Join(' ', outcome.Faults.Select(f => FormWords.Plain(f).Message)), decisions, athletes, host, token.For(context)))! with { Locked = locked, Avoided = avoid }));
    }

    private static async Task<ShownSession?> Read(string id, string? notice, OpenDecision decisions, SavedAthletes athletes, PageHost host, string token)
    {
        if (await decisions.Session(host.Organisation, id).ConfigureAwait(false) is not { } opened)
        {
            return null;
        }

        var reference = opened.Request.Context!.Athlete!.Ref;
        var name = reference is null ? null : (await athletes.One(host.Organisation, reference).ConfigureAwait(false))?.Name ?? reference;
        return new ShownSession(id, opened.CreatedAt, opened.Request, opened.Answer, name, host.Edition, opened.Request.Locked ?? [], opened.Request.Avoid ?? [], notice, token);
    }
}
