using System.Text;
using Microsoft.AspNetCore.Mvc;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Storage.Athletes;

namespace Recommender.Api.Athletes;

/// <summary>Saved profiles.</summary>
/// <param name="Items">Profiles by ref.</param>
public sealed record AthleteList(IReadOnlyList<AthleteProfile> Items);

/// <summary>GET /v1/athletes, and GET, PUT, DELETE /v1/athletes/{ref}.</summary>
public static class AthleteEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapAthletes(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/athletes", List).WithTags("Athletes").WithName("listAthletes").Produces<AthleteList>(contentType: "application/json")
            .MayAnswer(ProblemTypes.StoreUnavailable);
        routes.MapGet("/v1/athletes/{ref}", One).WithTags("Athletes").WithName("getAthlete").Produces<AthleteProfile>(contentType: "application/json")
            .MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
        routes.MapPut("/v1/athletes/{ref}", Save).WithTags("Athletes").WithName("saveAthlete").Accepts<AthleteProfile>("application/json")
            .Produces<AthleteProfile>(contentType: "application/json").Produces<AthleteProfile>(StatusCodes.Status201Created, "application/json")
            .MayAnswer(ProblemTypes.Malformed, ProblemTypes.TooLarge, ProblemTypes.UnsupportedMediaType, ProblemTypes.Invalid, ProblemTypes.StoreUnavailable);
        routes.MapDelete("/v1/athletes/{ref}", Erase).WithTags("Athletes").WithName("eraseAthlete").Produces(StatusCodes.Status204NoContent)
            .MayAnswer(ProblemTypes.NotFound, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Saved athlete profiles.</summary>
    /// <remarks>On a new store: the invented demo squad. A request never reads them; a form is filled from them.</remarks>
    /// <param name="context">Says who asks.</param>
    /// <param name="athletes">Keeps profiles.</param>
    /// <response code="200">Profiles by ref.</response>
    private static async Task<JsonBytes> List(HttpContext context, AthleteStore athletes) =>
        new(Encoding.UTF8.GetBytes($"{{\"items\":[{string.Join(',', await athletes.ReadAll(context.Caller().Organisation))}]}}"));

    /// <summary>One saved athlete profile.</summary>
    /// <remarks>Facts, usual setting and open complaints as they were saved.</remarks>
    /// <param name="reference">The organisation's own reference.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="athletes">Keeps profiles.</param>
    /// <response code="200">The profile.</response>
    /// <response code="404">No profile is saved under this ref.</response>
    private static async Task<IResult> One([FromRoute(Name = "ref")] string reference, HttpContext context, AthleteStore athletes) =>
        await athletes.Read(context.Caller().Organisation, reference) is { } profile
            ? new JsonBytes(Encoding.UTF8.GetBytes(profile))
            : Problem.Of(ProblemTypes.NotFound, "No profile is saved under this ref; GET /v1/athletes lists those that are.");

    /// <summary>Save an athlete profile.</summary>
    /// <remarks>In place of any before it, checked as the request that a form would make of it. A request never reads it.</remarks>
    /// <param name="reference">The organisation's own reference, 1 to 100 printable characters without /, \ and %, and not . or .. alone; the body holds the same or none.</param>
    /// <param name="context">Carries the body.</param>
    /// <param name="athletes">Saves profiles.</param>
    /// <param name="editions">Gives the edition in force.</param>
    /// <response code="200">The profile as it is saved now.</response>
    /// <response code="201">The profile as it is saved now; there was none before.</response>
    private static async Task<IResult> Save([FromRoute(Name = "ref")] string reference, HttpContext context, KeepAthlete athletes, EditionInForce editions)
    {
        var (body, unread) = await BodyReader.Read(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return unread;
        }

        if (RequestReader.Read<AthleteProfile>(body, out var fault) is not { } profile)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        // The ref may be left out of the body.
        profile = profile with { Ref = profile.Ref ?? reference };
        var wrong = KeepAthlete.Faults(profile, await editions.Of(context.Caller().Organisation));
        var faults = profile.Ref == reference ? wrong
            : [new Fault("/ref", "contradiction", "ref is not that of the path; give the same in both."), .. wrong];
        if (faults.Count > 0)
        {
            return Problem.Of(ProblemTypes.Invalid, faults);
        }

        var (saved, isNew) = await athletes.Save(context.Caller().Organisation, profile);
        return new JsonBytes(saved, isNew ? StatusCodes.Status201Created : StatusCodes.Status200OK);
    }

    /// <summary>Erase an athlete.</summary>
    /// <remarks>
    /// The saved profile goes, and in every decision about this athlete the ref, the coach, the notes and their salt; answers kept under an Idempotency-Key of the athlete's requests go too. The
    /// decisions themselves stay, without a person, and the chain still verifies.
    /// </remarks>
    /// <param name="reference">The organisation's own reference.</param>
    /// <param name="context">Says who asks.</param>
    /// <param name="athletes">Erases athletes.</param>
    /// <response code="204">Erased.</response>
    /// <response code="404">There is no profile and no decision of this ref.</response>
    private static async Task<IResult> Erase([FromRoute(Name = "ref")] string reference, HttpContext context, KeepAthlete athletes) =>
        await athletes.Erase(context.Caller().Organisation, reference)
            ? Results.NoContent()
            : Problem.Of(ProblemTypes.NotFound, "No profile is saved and no decision is on record under this ref.");
}
