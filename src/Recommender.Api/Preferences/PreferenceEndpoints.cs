using System.Text.Json;
using Recommender.Answers.Learned;
using Recommender.Answers.Wire;
using Recommender.Api.Hosting;
using Recommender.Api.Problems;
using Recommender.Pages.Hosting;

namespace Recommender.Api.Preferences;

/// <summary>GET /v1/preferences and PUT /v1/preferences/current.</summary>
public static class PreferenceEndpoints
{
    /// <summary>Maps the slice.</summary>
    public static void MapPreferences(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/v1/preferences", List).WithTags("Preferences").WithName("listPreferences").Produces<PreferenceList>(contentType: "application/json").MayAnswer(ProblemTypes.StoreUnavailable);
        routes.MapPut("/v1/preferences/current", Publish).WithTags("Preferences").WithName("publishPreference").Accepts<CurrentPreference>("application/json")
            .Produces<PreferenceInForce>(contentType: "application/json")
            .MayAnswer(ProblemTypes.Malformed, ProblemTypes.TooLarge, ProblemTypes.UnsupportedMediaType, ProblemTypes.Invalid, ProblemTypes.StoreUnavailable);
    }

    /// <summary>Learned numbers.</summary>
    /// <remarks>
    /// Every version that was learned from what coaches used, swapped and declined, newest first: the numbers, what they gain on later decisions and what they cost, and which are in force. A coach
    /// without a version in force gets the organisation's.
    /// </remarks>
    /// <param name="context">Says who asks.</param>
    /// <param name="preferences">Keeps versions.</param>
    /// <response code="200">Versions.</response>
    private static async Task<IResult> List(HttpContext context, LearnedPreferences preferences) =>
        new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(await preferences.List(context.Caller().Organisation), WireJson.Default.PreferenceList));

    /// <summary>Put learned numbers in force.</summary>
    /// <remarks>A kept version of the organisation or of one coach, at once and for every later answer; replicas beside this one take it over within five seconds, and every answer names the version that it leans to. An older one rolls back; no version switches it off. Decisions on record keep the one they were made on.</remarks>
    /// <param name="context">Carries the body.</param>
    /// <param name="preferences">Keeps versions.</param>
    /// <response code="200">What is in force.</response>
    private static async Task<IResult> Publish(HttpContext context, LearnedPreferences preferences)
    {
        var (body, unread) = await BodyReader.Read(context.Request, BodyReader.SingleLimit);
        if (unread is not null)
        {
            return unread;
        }

        if (RequestReader.Read<CurrentPreference>(body, out var fault) is not { } wanted)
        {
            return Problem.Of(ProblemTypes.Malformed, fault!);
        }

        return await preferences.Publish(context.Caller().Organisation, wanted.Coach, wanted.Version) is { } wrong
            ? Problem.Of(ProblemTypes.Invalid, wrong)
            : new JsonBytes(JsonSerializer.SerializeToUtf8Bytes(new PreferenceInForce(wanted.Coach, wanted.Version), WireJson.Default.PreferenceInForce));
    }
}
