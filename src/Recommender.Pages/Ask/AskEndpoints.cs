using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Ask;

/// <summary>GET and POST /: the request as a sentence.</summary>
internal static class AskEndpoints
{
    private const int LargestForm = 256 * 1024;

    /// <summary>Maps the page.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/", Show);
        routes.MapPost("/", Ask);
    }

    /// <summary>What a form that is too large gets.</summary>
    public static IResult TooLarge => PageResults.Message(StatusCodes.Status413PayloadTooLarge, "Too much", "The form holds more than this service reads; shorten the notes and send it again.");

    /// <summary>The form at first: empty, or filled from a saved athlete or an earlier decision.</summary>
    public static async Task<AskForm> Start(HttpContext context, string? athlete, string? decision, PageHost host, AskSource source, SavedAthletes athletes, FormToken token)
    {
        var from = !string.IsNullOrEmpty(athlete) ? AskSource.AthletePrefix + athlete : !string.IsNullOrEmpty(decision) ? AskSource.DecisionPrefix + decision : null;
        var found = await source.Find(host.Organisation, from);
        var typed = found is { } f ? TypedWriter.Of(f.Request, host.Edition.Knowledge.Questions) : Typed.Nothing;
        var notice = from is not null && found is null ? "Nothing is saved under that name any more; the form is empty." : null;
        return new AskForm(typed, found is null ? null : from, found?.Label, found?.Request, await athletes.All(host.Organisation), [], notice, token.For(context));
    }

    /// <summary>A posted form as it is shown again; with what to show at once where it is not to be answered yet: another row was asked for, or its token does not fit.</summary>
    public static async Task<PostedAsk> Posted(HttpContext context, Typed typed, PageHost host, AskSource source, SavedAthletes athletes, FormToken token)
    {
        var from = typed.Get("from");
        var found = await source.Find(host.Organisation, from);
        var fits = typed.Get("add") is not null || await token.Fits(context);
        var form = new AskForm(typed, found is null ? null : from, found?.Label, found?.Request, await athletes.All(host.Organisation), [], fits ? null : FormToken.Expired, token.For(context));
        return new PostedAsk(form, !fits ? StatusCodes.Status400BadRequest : typed.Get("add") is not null ? StatusCodes.Status200OK : null);
    }

    /// <summary>The form as a page.</summary>
    public static RazorComponentResult<AskPage> Page(int status, AskForm form) => PageResults.Page<AskPage>(status, (nameof(AskPage.Form), form));

    private static async Task<IResult> Show(HttpContext context, string? athlete, string? decision, PageHost host, AskSource source, SavedAthletes athletes, FormToken token) =>
        Page(StatusCodes.Status200OK, await Start(context, athlete, decision, host, source, athletes, token));

    private static async Task<IResult> Ask(HttpContext context, PageHost host, AskSource source, SavedAthletes athletes, AnswerRecommendation answers, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return TooLarge;
        }

        var typed = Typed.Of(form);
        var posted = await Posted(context, typed, host, source, athletes, token);
        if (posted.AtOnce is { } status)
        {
            return Page(status, posted.Form);
        }

        var (request, faults) = new RequestForm(typed, posted.Form.Basis, host.Edition).Read();
        if (faults.Count > 0)
        {
            // What else is wrong is told at once, but for values that could not be read.
            var unread = faults;
            faults = [.. unread, .. RequestChecks.Of(request, host.Edition.Catalogue, host.Edition.Knowledge).Where(f => unread.All(u => u.Pointer != f.Pointer))];
        }
        else
        {
            var outcome = await answers.One(request, host.Organisation, claim: null);
            if (outcome.Faults.Count == 0)
            {
                return new SeeOther($"/answers/{outcome.Answer!.DecisionId}");
            }

            faults = outcome.Faults;
        }

        return Page(StatusCodes.Status422UnprocessableEntity, posted.Form with { Faults = [.. faults.Select(FormWords.Plain)] });
    }
}

/// <summary>A form that was posted.</summary>
/// <param name="Form">As it is shown again.</param>
/// <param name="AtOnce">Status with which to show it at once; null when it is to be answered.</param>
internal sealed record PostedAsk(AskForm Form, int? AtOnce);
