using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Primitives;
using Recommender.Answers;
using Recommender.Pages.Ask;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Season;

/// <summary>GET /season: needs up to the competition and what goes out when. Nothing is recorded; the address holds all that was typed.</summary>
internal static class SeasonEndpoints
{
    /// <summary>Maps the page.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/season", Show);

    private static async Task<IResult> Show(HttpContext context, string? athlete, PageHost host, SavedAthletes athletes)
    {
        var edition = host.Edition;
        var profile = string.IsNullOrEmpty(athlete) ? null : await athletes.One(host.Organisation, athlete);
        var typed = new Typed(context.Request.Query.ToDictionary(q => q.Key, q => new StringValues([.. q.Value.Select(v => v is { Length: > 100 } ? v[..100] : v)]), StringComparer.Ordinal));
        var asked = context.Request.Query.ContainsKey("event") || profile is not null;

        // Chosen from the list alone, a saved athlete fills the sentence.
        if (profile is not null && !context.Request.Query.ContainsKey("event"))
        {
            typed = SeasonForm.Filled(profile, athletes.Today);
        }

        var form = new SeasonForm(edition, athletes.Today);
        var season = asked && edition.Knowledge.Planning is not null ? form.Read(typed, profile) : null;
        var notice = edition.Knowledge.Planning is null ? "The rules in force were published before there were lengths of phases; publish them anew to see a season."
            : !string.IsNullOrEmpty(athlete) && profile is null ? "Nothing is saved under that name any more; the form is empty." : null;
        var shown = new AskForm(typed, profile is null ? null : AskSource.AthletePrefix + profile.Ref, null, null, await athletes.All(host.Organisation), form.Faults, notice, "");
        return PageResults.Page<SeasonPage>(form.Faults.Count > 0 && context.Request.Query.ContainsKey("event") ? StatusCodes.Status422UnprocessableEntity : StatusCodes.Status200OK,
            (nameof(SeasonPage.Shown), new ShownSeason(shown, profile?.Ref, profile?.Name, athletes.Today, season?.Request, season?.Outlook, edition)));
    }
}
