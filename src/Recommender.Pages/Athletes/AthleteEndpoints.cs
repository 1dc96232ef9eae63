using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Answers.Wire;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Pages.Ask;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Athletes;

/// <summary>/athletes/{ref}: the page for hand-over, and the profile as a form.</summary>
internal static class AthleteEndpoints
{
    private const string Unknown = "No athlete is saved under this ref.";
    private const int LargestForm = 256 * 1024;
    private const int WeeksBack = 6;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/athletes/{reference}", Show);
        routes.MapGet("/athletes/{reference}/edit", Edit);
        routes.MapPost("/athletes/{reference}/edit", Save);
    }

    private static async Task<IResult> Show(string reference, string? saved, PageHost host, SavedAthletes athletes, RecentDecisions recent, TimeProvider clock)
    {
        if (await athletes.One(host.Organisation, reference) is not { } profile)
        {
            return PageResults.NotFound(Unknown);
        }

        var edition = host.Edition;
        var request = AskSource.Of(profile);
        var lacks = DecisionKind.Recommendation.Faults(request, edition);
        var limits = lacks.Count > 0 ? null : TissueLimits.Of(Situation.Of(request, edition));
        var days = await recent.Of(host.Organisation, reference, clock.GetUtcNow().AddDays(-7 * WeeksBack));
        return PageResults.Page<AthletePage>(StatusCodes.Status200OK, (nameof(AthletePage.Shown), new ShownAthlete(profile, athletes.Today, limits, lacks, days, WeeksBack, edition, saved is not null)));
    }

    private static async Task<IResult> Edit(HttpContext context, string reference, PageHost host, SavedAthletes athletes, FormToken token) =>
        await athletes.One(host.Organisation, reference) is { } profile
            ? Page(StatusCodes.Status200OK, profile, host.Edition, Form(new AthleteForm(profile, host.Edition, athletes.Today).Filled(), profile, [], null, token.For(context)))
            : PageResults.NotFound(Unknown);

    private static async Task<IResult> Save(HttpContext context, string reference, PageHost host, SavedAthletes athletes, KeepAthlete keeper, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } posted)
        {
            return AskEndpoints.TooLarge;
        }

        if (await athletes.One(host.Organisation, reference) is not { } profile)
        {
            return PageResults.NotFound(Unknown);
        }

        var typed = AthleteForm.Compact(Typed.Of(posted));
        if (!await token.Fits(context))
        {
            return Page(StatusCodes.Status400BadRequest, profile, host.Edition, Form(typed, profile, [], FormToken.Expired, token.For(context)));
        }

        if (typed.Get("add") is not null)
        {
            return Page(StatusCodes.Status200OK, profile, host.Edition, Form(typed, profile, [], null, token.For(context)));
        }

        var (read, unread) = new AthleteForm(profile, host.Edition, athletes.Today).Read(typed);
        var faults = unread.Concat(KeepAthlete.Faults(read, host.Edition).Select(AthleteForm.Placed).Where(f => unread.All(u => u.Pointer != f.Pointer))).ToList();
        if (faults.Count > 0)
        {
            return Page(StatusCodes.Status422UnprocessableEntity, profile, host.Edition, Form(typed, profile, faults, null, token.For(context)));
        }

        await keeper.Save(host.Organisation, read);
        return new SeeOther($"/athletes/{Uri.EscapeDataString(reference)}?saved=1");
    }

    private static AskForm Form(Typed typed, AthleteProfile profile, IReadOnlyList<Fault> faults, string? notice, string token) =>
        new(typed, AskSource.AthletePrefix + profile.Ref, null, AskSource.Of(profile), [], faults, notice, token);

    private static RazorComponentResult<EditPage> Page(int status, AthleteProfile profile, Edition edition, AskForm form) =>
        PageResults.Page<EditPage>(status, (nameof(EditPage.Form), form), (nameof(EditPage.Profile), profile), (nameof(EditPage.Edition), edition));
}
