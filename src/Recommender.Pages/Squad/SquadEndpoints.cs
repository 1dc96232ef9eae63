using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Squad;

/// <summary>/squad: the list, import and export of spreadsheets.</summary>
internal static class SquadEndpoints
{
    private const int LargestForm = 1024 * 1024;

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
    }

    private static async Task<IResult> List(HttpContext context, string? saved, PageHost host, SavedAthletes athletes, FormToken token) =>
        SquadPageOf(StatusCodes.Status200OK, await athletes.All(host.Organisation), host, int.TryParse(saved, out var n) ? $"{n} {(n == 1 ? "athlete" : "athletes")} saved." : null, token.For(context));

    private static async Task<IResult> Export(HttpContext context, PageHost host, SavedAthletes athletes)
    {
        context.Response.Headers.ContentDisposition = "attachment; filename=\"squad.csv\"";

        // The mark at the start makes spreadsheets read it as UTF-8.
        return Results.Bytes([.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(SquadCsv.Write(await athletes.All(host.Organisation), host.Edition.Catalogue.Vocabulary, athletes.Today))], "text/csv; charset=utf-8");
    }

    private static RazorComponentResult<ImportPage> AskForFile(HttpContext context, PageHost host, SavedAthletes athletes, FormToken token) =>
        ImportPageOf(StatusCodes.Status200OK, new SquadImport("", [], [], [], null, token.For(context)), host, athletes.Today);

    /// <summary>Shows what a spreadsheet would save; nothing is saved.</summary>
    private static async Task<IResult> Preview(HttpContext context, PageHost host, SavedAthletes athletes, KeepAthlete keeper, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return TooLarge;
        }

        var import = await Read(context, form, host, athletes, keeper, token);
        return await token.Fits(context) ? ImportPageOf(StatusCodes.Status200OK, import, host, athletes.Today)
            : ImportPageOf(StatusCodes.Status400BadRequest, import with { Problem = FormToken.Expired }, host, athletes.Today);
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
            return ImportPageOf(StatusCodes.Status400BadRequest, import with { Problem = FormToken.Expired }, host, athletes.Today);
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
        return SquadImport.Of(text, chosen, await athletes.All(host.Organisation), host.Edition.Catalogue.Vocabulary, p => KeepAthlete.Faults(p, host.Edition), token.For(context), athletes.Today);
    }

    /// <summary>The list as a page.</summary>
    public static RazorComponentResult<SquadPage> SquadPageOf(int status, IReadOnlyList<AthleteProfile> squad, PageHost host, string? notice, string token) =>
        PageResults.Page<SquadPage>(status, (nameof(SquadPage.Saved), squad), (nameof(SquadPage.Words), host.Edition.Catalogue.Vocabulary), (nameof(SquadPage.Notice), notice), (nameof(SquadPage.Token), token));

    private static RazorComponentResult<ImportPage> ImportPageOf(int status, SquadImport import, PageHost host, DateOnly today) =>
        PageResults.Page<ImportPage>(status, (nameof(ImportPage.Import), import), (nameof(ImportPage.Words), host.Edition.Catalogue.Vocabulary), (nameof(ImportPage.Today), today));
}
