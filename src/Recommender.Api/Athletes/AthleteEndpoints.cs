using System.Text;
using Microsoft.AspNetCore.Mvc;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Storage.Athletes;

namespace Recommender.Api.Athletes;

/// <summary>Saved profiles.</summary>
/// <param name="Items">Profiles by ref.</param>
public sealed record AthleteList(IReadOnlyList<AthleteProfile> Items);

/// <summary>GET /v1/athletes and /v1/athletes/{ref}.</summary>
public static class AthleteEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapAthletes(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/athletes", List).WithTags("Athletes").WithName("listAthletes").Produces<AthleteList>(contentType: "application/json")
            .MayAnswer(ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/athletes/{ref}", One).WithTags("Athletes").WithName("getAthlete").Produces<AthleteProfile>(contentType: "application/json")
            .MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Saved athlete profiles.</summary>
    /// <remarks>On a new store: the invented demo squad. A request never reads them; a form is filled from them.</remarks>
    /// <param name="athletes">Keeps profiles.</param>
    /// <response code="200">Profiles by ref.</response>
    private static async Task<JsonBytes> List(AthleteStore athletes) =>
        new(Encoding.UTF8.GetBytes($"{{\"items\":[{string.Join(',', await athletes.ReadAll(Organisation.Local))}]}}"));

    /// <summary>One saved athlete profile.</summary>
    /// <remarks>Facts, usual setting and open complaints as they were saved.</remarks>
    /// <param name="reference">The organisation's own reference.</param>
    /// <param name="athletes">Keeps profiles.</param>
    /// <response code="200">The profile.</response>
    /// <response code="404">No profile is saved under this ref.</response>
    private static async Task<IResult> One([FromRoute(Name = "ref")] string reference, AthleteStore athletes) =>
        await athletes.Read(Organisation.Local, reference) is { } profile
            ? new JsonBytes(Encoding.UTF8.GetBytes(profile))
            : Problem.Of(ProblemTypes.NotFound, "No profile is saved under this ref; GET /v1/athletes lists those that are.");
}
