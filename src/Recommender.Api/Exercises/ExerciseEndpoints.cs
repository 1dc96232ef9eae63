using System.Text.Json;
using Microsoft.Net.Http.Headers;
using Recommender.Answers;
using Recommender.Answers.ExerciseFiles;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Catalogue;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Exercises;

/// <summary>GET /v1/exercises and /v1/exercises/{id}.</summary>
public static class ExerciseEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapExercises(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/exercises", List).WithTags("Catalogue").WithName("listExercises")
            .Produces<ExercisePage>(contentType: "application/json").MayAnswer(ProblemTypes.Malformed);
        routes.MapGet("/v1/exercises/{id}", One).WithTags("Catalogue").WithName("getExercise")
            .Produces<Exercise>(contentType: "application/json").MayAnswer(ProblemTypes.NotFound);
    }

    /// <summary>Page through the catalogue, or export it as a table.</summary>
    /// <remarks>
    /// Filters narrow one another. With region and maxLoad: exercises whose upper load on the region stays within it; with region alone: those that load it.
    /// With Accept text/csv everything that fits comes as one table for spreadsheets (RFC 4180), unless a limit is given; then Link names the next page.
    /// </remarks>
    /// <param name="context">Carries the query.</param>
    /// <param name="editions">Gives the catalogue.</param>
    /// <response code="200">Exercises by id, with the cursor of the next page.</response>
    /// <response code="400">A filter is unknown or its value cannot be used.</response>
    private static async Task<IResult> List(HttpContext context, EditionInForce editions)
    {
        var catalogue = (await editions.Of(context.Caller().Organisation)).Catalogue;
        var csv = ExerciseFormat.WantsCsv(context.Request);
        context.Response.Headers.Vary = HeaderNames.Accept;
        var (page, faults) = ExerciseQuery.Answer(context.Request.Query, catalogue, wholeUnlessLimited: csv);
        return page is null ? Problem.Of(ProblemTypes.Malformed, faults)
            : csv ? new CsvBytes(ExerciseCsv.Write(page.Items, new ExerciseTable(catalogue.Vocabulary)), Next(context.Request, page.NextCursor))
            : new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(page, ApiJson.Default.ExercisePage));
    }

    /// <summary>The same query from the cursor on; null on the last page.</summary>
    private static string? Next(HttpRequest request, string? cursor) => cursor is null
        ? null
        : request.Path + QueryString.Create(request.Query.Where(q => q.Key != "cursor").Append(new("cursor", cursor)));

    /// <summary>One exercise.</summary>
    /// <remarks>With every number, its basis and its source, and the ladder of easier and harder steps.</remarks>
    /// <param name="id">Exercise id.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="editions">Gives the catalogue.</param>
    /// <response code="200">The exercise.</response>
    /// <response code="404">The catalogue has no exercise of this id.</response>
    private static async Task<IResult> One(string id, HttpContext context, EditionInForce editions) =>
        (await editions.Of(context.Caller().Organisation)).Catalogue.Find(id) is { } exercise
            ? new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(exercise, ApiJson.Default.Exercise))
            : Problem.Of(ProblemTypes.NotFound, "The catalogue has no exercise of this id; GET /v1/exercises?q= finds one.");
}
