using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Domain.Catalogue;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Exercises;

/// <summary>/exercises, /exercises/{id} and /sources: the catalogue, with every number and where it comes from.</summary>
internal static class ExerciseEndpoints
{
    private const int PageSize = 60;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/exercises", List);
        routes.MapGet("/exercises/{id}", One);
        routes.MapGet("/sources", Sources);
    }

    /// <summary>A filter that is not known, as after a word was dropped, is left out rather than refused: the form shows what counts.</summary>
    private static RazorComponentResult<ExerciseListPage> List(HttpContext context, PageHost host)
    {
        var query = context.Request.Query;
        var edition = host.Edition;
        var words = edition.Catalogue.Vocabulary;
        var region = Known("region", words.Regions);
        var filter = new ExerciseFilter
        {
            Quality = Known("quality", words.Qualities),
            Support = Known("support", words.Supports),
            Pattern = Known("pattern", words.Patterns),
            Equipment = Known("equipment", words.Equipment),
            Region = region,
            MaxLoad = region is not null && decimal.TryParse(One("maxLoad")?.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var most) ? Math.Clamp(most, 0, 10) : null,
            Text = One("q"),
        };
        var found = filter.In(edition.Catalogue).OrderBy(e => words.Patterns.IndexOf(e.Pattern)).ThenBy(e => e.Name, StringComparer.Ordinal).ToList();
        var from = int.TryParse(One("from"), NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < found.Count ? at : 0;
        return PageResults.Page<ExerciseListPage>(StatusCodes.Status200OK, (nameof(ExerciseListPage.Edition), edition), (nameof(ExerciseListPage.Filter), filter),
            (nameof(ExerciseListPage.Shown), found.Skip(from).Take(PageSize).ToList()), (nameof(ExerciseListPage.Count), found.Count), (nameof(ExerciseListPage.From), from), (nameof(ExerciseListPage.Step), PageSize));

        string? One(string name) => query[name].FirstOrDefault()?.Trim() is { Length: > 0 } value ? value : null;

        string? Known<T>(string name, Terms<T> terms) where T : Term => One(name) is { } id && terms.Has(id) ? id : null;
    }

    private static IResult One(string id, PageHost host) => host.Edition.Catalogue.Find(id) is { } exercise
        ? PageResults.Page<ExercisePage>(StatusCodes.Status200OK, (nameof(ExercisePage.Exercise), exercise), (nameof(ExercisePage.Edition), host.Edition))
        : PageResults.NotFound("The catalogue has no exercise under this address.");

    private static RazorComponentResult<SourcesPage> Sources(PageHost host) => PageResults.Page<SourcesPage>(StatusCodes.Status200OK, (nameof(SourcesPage.Sources), host.Edition.Knowledge.Sources));
}
