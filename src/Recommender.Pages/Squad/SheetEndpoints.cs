using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Domain.Decisions;
using Recommender.Domain.Groups;
using Recommender.Domain.Requests;
using Recommender.Domain.Substitutions;
using Recommender.Pages.Answers;
using Recommender.Pages.Ask;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Squad;

/// <summary>/squad/sheet: one sheet of today's work for a group, and trades that let athletes share exercises.</summary>
internal static class SheetEndpoints
{
    private const string Unknown = "There is no sheet under this address.";
    private const int LargestForm = 256 * 1024;
    private const int PicksEach = 4;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapPost("/squad/sheet", Make);
        routes.MapGet("/squad/sheet", Show);
        routes.MapPost("/squad/sheet/trade", Trade);
    }

    /// <summary>Answers each ticked athlete, or all, and gives the sheet of those answers, all recorded together.</summary>
    private static async Task<IResult> Make(HttpContext context, PageHost host, SavedAthletes athletes, AnswerRecommendation answers, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var all = await athletes.All(host.Organisation);
        if (form is null || !await token.Fits(context))
        {
            return SquadEndpoints.SquadPageOf(StatusCodes.Status400BadRequest, all, host, FormToken.Expired, token.For(context));
        }

        var refs = form["ref"].ToHashSet(StringComparer.Ordinal);
        var chosen = all.Where(a => form.ContainsKey("all") || refs.Contains(a.Ref)).ToList();
        if (chosen.Count is 0 or > SheetReader.MostAthletes)
        {
            var notice = chosen.Count == 0 ? "Tick at least one athlete." : $"A sheet holds {SheetReader.MostAthletes} athletes; {chosen.Count} are chosen. Tick fewer.";
            return SquadEndpoints.SquadPageOf(StatusCodes.Status422UnprocessableEntity, all, host, notice, token.For(context));
        }

        var place = form["place"].FirstOrDefault() is { Length: > 0 } p && host.Edition.Catalogue.Vocabulary.Places.Has(p) ? p : null;
        List<RecommendationRequest> requests = [.. chosen.Select(AskSource.Of).Select(r => r with
        {
            Count = PicksEach,
            Setting = place is null || place == r.Setting?.Place ? r.Setting : (r.Setting ?? new SettingFacts()) with { Place = place, Equipment = null, Kit = null },
        })];
        IReadOnlyList<DecisionOutcome<Answer>> outcomes = [];
        await answers.Many(requests, host.Organisation, made =>
        {
            outcomes = made;
            return [];
        }, claim: null);
        var ids = outcomes.Where(o => o.Answer is not null).Select(o => o.Answer!.DecisionId);
        var lacking = chosen.Where((_, i) => outcomes[i].Answer is null).Select(a => "&lacking=" + Uri.EscapeDataString(a.Ref));
        return new SeeOther($"/squad/sheet?d={string.Join(',', ids)}{string.Concat(lacking)}");
    }

    private static async Task<IResult> Show(HttpContext context, SheetReader sheets, FormToken token) =>
        await Read(context, sheets, token, null) is { } sheet ? Page(StatusCodes.Status200OK, sheet) : PageResults.NotFound(Unknown);

    /// <summary>Makes the ticked trades: each is a substitution on record, and the sheet's new address names it.</summary>
    private static async Task<IResult> Trade(HttpContext context, SheetReader sheets, AnswerSubstitution substitutions, PageHost host, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var fits = form is not null && await token.Fits(context);
        if (await Read(context, sheets, token, fits ? null : FormToken.Expired) is not { } sheet)
        {
            return PageResults.NotFound(Unknown);
        }

        if (!fits)
        {
            return Page(StatusCodes.Status400BadRequest, sheet);
        }

        // Only what is offered is traded: its gates and its points were looked at.
        var ticked = form![SheetTrade.Field].ToHashSet(StringComparer.Ordinal);
        var trades = sheet.Trades.Where(t => ticked.Contains(SheetPage.IdOf(t))).ToList();
        if (trades.Count == 0)
        {
            return Page(StatusCodes.Status422UnprocessableEntity, sheet with { Notice = "Tick at least one trade; what was ticked may no longer be offered." });
        }

        IReadOnlyList<DecisionOutcome<SubstitutionAnswer>> outcomes = [];
        await substitutions.Many([.. trades.Select(t => GroupTrades.Request(new GroupMember(sheet.Lines[t.Member].Request, []), t.From.Exercise.Id))], host.Organisation, made =>
        {
            outcomes = made;
            return [];
        }, claim: null);
        var taken = trades.Zip(outcomes).Where(x => x.Second.Answer is not null).Select(x => new SheetTrade(x.First.Member, new Swap(x.First.From.Rank, x.Second.Answer!.DecisionId, x.First.To.Exercise.Id)));
        return new SeeOther($"/squad/sheet{sheet.Address}{string.Concat(taken.Select(t => "&" + t.Query))}&racks={sheet.Racks}");
    }

    private static Task<ShownSheet?> Read(HttpContext context, SheetReader sheets, FormToken token, string? notice)
    {
        var query = context.Request.Query;
        return sheets.Read([.. (query["d"].FirstOrDefault() ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries).Take(SheetReader.MostAthletes)],
            [.. query[SheetTrade.Field].Select(SheetTrade.Of).OfType<SheetTrade>()],
            [.. query["lacking"].OfType<string>().Take(SheetReader.MostAthletes)],
            int.TryParse(query["racks"].FirstOrDefault(), NumberStyles.None, CultureInfo.InvariantCulture, out var racks) ? racks : null, notice, token.For(context));
    }

    private static RazorComponentResult<SheetPage> Page(int status, ShownSheet sheet) => PageResults.Page<SheetPage>(status, (nameof(SheetPage.Shown), sheet));
}
