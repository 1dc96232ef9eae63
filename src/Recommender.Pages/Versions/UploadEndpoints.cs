using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Answers.ExerciseFiles;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Versions;

/// <summary>/versions/upload: a file of exercises becomes a draft, or is sent back with everything that is wrong.</summary>
internal static class UploadEndpoints
{
    private const int LargestForm = 4 * 1024 * 1024;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/versions/upload", (HttpContext context, FormToken token) => UploadPageOf(StatusCodes.Status200OK, new ShownUpload(null, 0, [], null, null, token.For(context))));
        routes.MapPost("/versions/upload", Upload);
        routes.MapGet("/versions/exercises.csv", Export);
    }

    private static async Task<IResult> Upload(HttpContext context, KnowledgeVersions versions, PageHost host, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form)
        {
            return PageResults.Message(StatusCodes.Status413PayloadTooLarge, "Too much", "The file is larger than 4 MB; send the exercises that change and leave out the rest.");
        }

        if (!await token.Fits(context))
        {
            return UploadPageOf(StatusCodes.Status400BadRequest, new ShownUpload(null, 0, [], null, FormToken.Expired + " Choose the file again.", token.For(context)));
        }

        if (form.Files.GetFile("file") is not { Length: > 0 } sent)
        {
            return UploadPageOf(StatusCodes.Status422UnprocessableEntity, new ShownUpload(null, 0, [], null, "Choose a file that is not empty.", token.For(context)));
        }

        using var bytes = new MemoryStream();
        await sent.CopyToAsync(bytes, context.RequestAborted);
        var edited = EditedFile.Read(Path.GetFileName(sent.FileName), bytes.ToArray(), host.Edition.Catalogue.Vocabulary);
        var shown = new ShownUpload(edited.Name, edited.Rows.Count, edited.Faults, null, null, token.For(context));
        if (edited.Rows.Count == 0)
        {
            return UploadPageOf(StatusCodes.Status422UnprocessableEntity, shown.Faults.Count > 0 ? shown : shown with { Notice = "The file holds no exercise." });
        }

        // Checked as a whole even where cells could not be read, so that everything is told at once; kept only when nothing is wrong.
        var keep = form["do"].FirstOrDefault() == "keep" && edited.Faults.Count == 0;
        var outcome = await versions.Draft(host.Organisation, new CatalogueDraft { Upsert = [.. edited.Rows.Select(r => r.DeepClone().AsObject())], DryRun = !keep });
        IReadOnlyList<string> faults = [.. edited.Faults, .. outcome.Faults.OrderBy(PlaceOf).Select(edited.Told).OfType<string>()];
        if (faults.Count > 0)
        {
            return UploadPageOf(StatusCodes.Status422UnprocessableEntity, shown with { Faults = faults });
        }

        return keep ? new SeeOther("/versions/catalogue/" + outcome.Version) : UploadPageOf(StatusCodes.Status200OK, shown with { Outcome = outcome });
    }

    /// <summary>The exercises in force as a table that comes back in.</summary>
    private static IResult Export(HttpContext context, PageHost host)
    {
        context.Response.Headers.ContentDisposition = "attachment; filename=\"exercises.csv\"";
        var catalogue = host.Edition.Catalogue;

        // The mark at the start makes spreadsheets read it as UTF-8; it is taken off when the table comes back.
        return Results.Bytes([.. Encoding.UTF8.GetPreamble(), .. ExerciseCsv.Write(catalogue.Exercises, new ExerciseTable(catalogue.Vocabulary))], "text/csv; charset=utf-8");
    }

    /// <summary>In the order of the file; what stands in none of its exercises comes last.</summary>
    private static int PlaceOf(Fault fault) => fault.Pointer.Split('/', 4) is [_, "upsert", var at, ..] && int.TryParse(at, out var index) ? index : int.MaxValue;

    private static RazorComponentResult<UploadPage> UploadPageOf(int status, ShownUpload shown) => PageResults.Page<UploadPage>(status, (nameof(UploadPage.Shown), shown));
}
