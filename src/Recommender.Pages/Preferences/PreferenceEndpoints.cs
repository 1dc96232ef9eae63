using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers.Learned;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Preferences;

/// <summary>/preferences: what was learned from choices, every number in words, put in force or taken away.</summary>
internal static class PreferenceEndpoints
{
    private const int LargestForm = 16 * 1024;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/preferences", Show);
        routes.MapPost("/preferences", Publish);
    }

    private static async Task<IResult> Show(HttpContext context, string? done, LearnedPreferences preferences, PageHost host, FormToken token) =>
        await Page(StatusCodes.Status200OK, done == "yes" ? "It holds for every later answer; those on record stay as they were." : null, context, preferences, host, token);

    private static async Task<IResult> Publish(HttpContext context, LearnedPreferences preferences, PageHost host, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form || !await token.Fits(context))
        {
            return await Page(StatusCodes.Status400BadRequest, FormToken.Expired, context, preferences, host, token);
        }

        var fault = await preferences.Publish(host.Organisation, form["coach"].FirstOrDefault() is { Length: > 0 } coach ? coach : null, form["version"].FirstOrDefault() is { Length: > 0 } version ? version : null);
        return fault is null ? new SeeOther("/preferences?done=yes") : await Page(StatusCodes.Status422UnprocessableEntity, fault.Message, context, preferences, host, token);
    }

    private static async Task<IResult> Page(int status, string? notice, HttpContext context, LearnedPreferences preferences, PageHost host, FormToken token) =>
        PageResults.Page<PreferencePage>(status, (nameof(PreferencePage.Versions), (await preferences.List(host.Organisation)).Items), (nameof(PreferencePage.Edition), host.Edition),
            (nameof(PreferencePage.Notice), notice), (nameof(PreferencePage.Token), token.For(context)));
}
