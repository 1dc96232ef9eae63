using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Squad;

/// <summary>/squad: the list, import and export of spreadsheets, and one sheet for a group.</summary>
internal static class SquadEndpoints
{
    private const int LargestForm = 1024 * 1024;
    private const int MostAthletes = 60;
    private const int PicksEach = 4;

    /// <summary>Rows from which on saving shows how far it is.</summary>
    private const int Many = 200;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/squad", List);
        routes.MapGet("/squad/export", Export);
        routes.MapGet("/squad/import", AskForFile);
        routes.MapPost("/squad/import", Preview);
        routes.MapPost("/squad/import/save", Save);
        routes.MapPost("/squad/sheet", MakeSheet);
        routes.MapGet("/squad/sheet", ShowSheet);
    }

    private static async Task<IResult> List(HttpContext context, string? saved, PageHost host, SavedAthletes athletes, FormToken token) =>
        SquadPageOf(StatusCodes.Status200OK, await athletes.All(host.Organisation), host, int.TryParse(saved, out var n) ? $"{n} {(n == 1 ? "athlete" : "athletes")} saved." : null, token.For(context));

    private static async Task<IResult> Export(HttpContext context, PageHost host, SavedAthletes athletes)
    {
        context.Response.Headers.ContentDisposition = "attachment; filename=\"squad.csv\"";

        // The mark at the start makes spreadsheets read it as UTF-8.
        return Results.Bytes([.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(SquadCsv.Write(await athletes.All(host.Organisation), host.Edition.Catalogue.Vocabulary))], "text/csv; charset=utf-8");
    }

    private static RazorComponentResult<ImportPage> AskForFile(HttpContext context, PageHost host, FormToken token) =>
        ImportPageOf(StatusCodes.Status200OK, new SquadImport("", [], [], [], null, token.For(context)), host);

    /// <summary>Shows what a spreadsheet would save; nothing is saved.</summary>
    private static async Task<IResult> Preview(HttpContext context, PageHost host, SavedAthletes athletes, KeepAthlete keeper, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return TooLarge;
        }

        var import = await Read(context, form, host, athletes, keeper, token);
        return await token.Fits(context) ? ImportPageOf(StatusCodes.Status200OK, import, host)
            : ImportPageOf(StatusCodes.Status400BadRequest, import with { Problem = FormToken.Expired }, host);
    }

    /// <summary>Saves the rows without faults. The spreadsheet is read again, so that what is saved is what is in force now.</summary>
    private static async Task<IResult> Save(HttpContext context, PageHost host, SavedAthletes athletes, KeepAthlete keeper, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return TooLarge;
        }

        var import = await Read(context, form, host, athletes, keeper, token);
        if (!await token.Fits(context))
        {
            return ImportPageOf(StatusCodes.Status400BadRequest, import with { Problem = FormToken.Expired }, host);
        }

        if (import.Ready.Count > Many)
        {
            return new StreamedPage<SavingPage>(cancelled => SquadSaving.Of(import.Ready, p => keeper.Save(host.Organisation, p), cancelled));
        }

        foreach (var row in import.Ready)
        {
            await keeper.Save(host.Organisation, row.Profile);
        }

        return new SeeOther($"/squad?saved={import.Ready.Count}");
    }

    /// <summary>Answers each ticked athlete and gives the sheet of those answers, all recorded together.</summary>
    private static async Task<IResult> MakeSheet(HttpContext context, PageHost host, SavedAthletes athletes, AnswerRecommendation answers, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var all = await athletes.All(host.Organisation);
        if (form is null || !await token.Fits(context))
        {
            return SquadPageOf(StatusCodes.Status400BadRequest, all, host, FormToken.Expired, token.For(context));
        }

        var refs = form["ref"].ToHashSet(StringComparer.Ordinal);
        var chosen = all.Where(a => refs.Contains(a.Ref)).Take(MostAthletes).ToList();
        if (chosen.Count == 0)
        {
            return SquadPageOf(StatusCodes.Status422UnprocessableEntity, all, host, "Tick at least one athlete.", token.For(context));
        }

        var place = form["place"].FirstOrDefault() is { Length: > 0 } p && host.Edition.Catalogue.Vocabulary.Places.Has(p) ? p : null;
        List<RecommendationRequest> requests = [.. chosen.Select(AskSource.Of).Select(r => r with
        {
            Count = PicksEach,
            Setting = place is null || place == r.Setting?.Place ? r.Setting : (r.Setting ?? new SettingFacts()) with { Place = place, Equipment = null, Kit = null },
        })];
        IReadOnlyList<DecisionOutcome<Answer>> outcomes = [];
        await answers.Many(requests, host.Organisation, made =>
        {
            outcomes = made;
            return [];
        }, claim: null);
        var ids = outcomes.Where(o => o.Answer is not null).Select(o => o.Answer!.DecisionId);
        var lacking = chosen.Where((_, i) => outcomes[i].Answer is null).Select(a => "&lacking=" + Uri.EscapeDataString(a.Ref));
        return new SeeOther($"/squad/sheet?d={string.Join(',', ids)}{string.Concat(lacking)}");
    }

    private static async Task<IResult> ShowSheet(HttpContext context, string? d, PageHost host, OpenDecision decisions, SavedAthletes athletes)
    {
        var names = (await athletes.All(host.Organisation)).ToDictionary(a => a.Ref, a => a.Name, StringComparer.Ordinal);
        var lines = new List<SheetLine>();
        foreach (var id in (d ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries).Take(MostAthletes))
        {
            if (await decisions.Recommendation(host.Organisation, id) is { } opened)
            {
                var reference = opened.Request.Athlete!.Ref;
                lines.Add(new SheetLine(id, opened.CreatedAt, reference is not null && names.TryGetValue(reference, out var name) ? name : reference ?? "No name", opened.Request, opened.Answer));
            }
        }

        List<string> lacking = [.. context.Request.Query["lacking"].OfType<string>().Take(MostAthletes).Select(r => names.GetValueOrDefault(r, r))];
        return lines.Count == 0 && lacking.Count == 0 ? PageResults.NotFound("There is no sheet under this address.")
            : PageResults.Page<SheetPage>(StatusCodes.Status200OK, (nameof(SheetPage.Lines), lines), (nameof(SheetPage.Lacking), lacking), (nameof(SheetPage.Words), host.Edition.Catalogue.Vocabulary));
    }

    private static IResult TooLarge => PageResults.Message(StatusCodes.Status413PayloadTooLarge, "Too much", "The spreadsheet is larger than 1 MB; save the columns and rows that are needed as CSV and send those.");

    private static async Task<SquadImport> Read(HttpContext context, IFormCollection form, PageHost host, SavedAthletes athletes, KeepAthlete keeper, FormToken token)
    {
        var text = form["text"].FirstOrDefault() ?? "";
        if (form.Files.GetFile("file") is { Length: > 0 } file)
        {
            using var reader = new StreamReader(file.OpenReadStream(), Encoding.UTF8);
            text = await reader.ReadToEndAsync(context.RequestAborted);
        }

        IReadOnlyList<string>? chosen = form.ContainsKey("column") ? [.. form["column"].Select(c => c ?? "")] : null;
        return SquadImport.Of(text, chosen, await athletes.All(host.Organisation), host.Edition.Catalogue.Vocabulary, keeper.Faults, token.For(context));
    }

    private static RazorComponentResult<SquadPage> SquadPageOf(int status, IReadOnlyList<AthleteProfile> squad, PageHost host, string? notice, string token) =>
        PageResults.Page<SquadPage>(status, (nameof(SquadPage.Saved), squad), (nameof(SquadPage.Words), host.Edition.Catalogue.Vocabulary), (nameof(SquadPage.Notice), notice), (nameof(SquadPage.Token), token));

    private static RazorComponentResult<ImportPage> ImportPageOf(int status, SquadImport import, PageHost host) =>
        PageResults.Page<ImportPage>(status, (nameof(ImportPage.Import), import), (nameof(ImportPage.Words), host.Edition.Catalogue.Vocabulary));
}

/// <summary>An athlete's line on a group's sheet.</summary>
/// <param name="DecisionId">Decision.</param>
/// <param name="CreatedAt">When.</param>
/// <param name="Name">Who.</param>
/// <param name="Request">What was asked.</param>
/// <param name="Answer">The answer.</param>
public sealed record SheetLine(string DecisionId, DateTimeOffset CreatedAt, string Name, RecommendationRequest Request, Answer Answer);
