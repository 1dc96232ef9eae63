using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Domain.Decisions;
using Recommender.Domain.Substitutions;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Answers;

/// <summary>/answers/{id}: look, what if, swap, print. A GET never writes a decision.</summary>
internal static class AnswerEndpoints
{
    private const string Unknown = "There is no answer under this address.";
    private const int LargestForm = 16 * 1024;
    private const int Substitutes = 8;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/answers/{id}", Show);
        routes.MapGet("/answers/{id}/print", Print);
        routes.MapPost("/answers/{id}/record", Record);
        routes.MapGet("/answers/{id}/swap/{rank:int}", ShowSwap);
        routes.MapPost("/answers/{id}/swap/{rank:int}", TakeSwap);
    }

    private static async Task<IResult> Show(HttpContext context, string id, AnswerReader answers, PageHost host, FormToken token) =>
        await answers.Read(id, Asked(context, host), Swaps(context), token.For(context)) is { } shown
            ? PageResults.Page<AnswerPage>(StatusCodes.Status200OK, (nameof(AnswerPage.Shown), shown))
            : PageResults.NotFound(Unknown);

    private static async Task<IResult> Print(HttpContext context, string id, AnswerReader answers) =>
        await answers.Read(id, WhatIf.Nothing, Swaps(context), "") is { } shown
            ? PageResults.Page<PrintPage>(StatusCodes.Status200OK, (nameof(PrintPage.Shown), shown))
            : PageResults.NotFound(Unknown);

    /// <summary>Records a what-if as a decision of its own.</summary>
    private static async Task<IResult> Record(HttpContext context, string id, OpenDecision decisions, AnswerReader answers, AnswerRecommendation recommendations, PageHost host, FormToken token)
    {
        var whatIf = Asked(context, host);
        if (await decisions.Recommendation(host.Organisation, id) is not { } opened)
        {
            return PageResults.NotFound(Unknown);
        }

        if (await PostedForm.Read(context, LargestForm) is null || !await token.Fits(context))
        {
            // Shown again with a new token; the address holds everything that was chosen.
            var shown = await answers.Read(id, whatIf, [], token.For(context));
            return PageResults.Page<AnswerPage>(StatusCodes.Status400BadRequest, (nameof(AnswerPage.Shown), shown));
        }

        var outcome = await recommendations.One(whatIf.Apply(opened.Request, host.Edition), host.Organisation, claim: null);
        return outcome.Faults.Count > 0
            ? PageResults.Message(StatusCodes.Status422UnprocessableEntity, "This cannot be recorded", string.Join(' ', outcome.Faults.Select(f => f.Message)))
            : new SeeOther("/answers/" + outcome.Answer!.DecisionId);
    }

    private static async Task<IResult> ShowSwap(HttpContext context, string id, int rank, string? reason, AnswerReader answers, PageHost host, FormToken token) =>
        await SwapOf(id, rank, reason, null, context, answers, host, token) is { } shown
            ? PageResults.Page<SwapPage>(StatusCodes.Status200OK, (nameof(SwapPage.Shown), shown))
            : PageResults.NotFound(Unknown);

    private static async Task<IResult> TakeSwap(HttpContext context, string id, int rank, AnswerReader answers, AnswerSubstitution substitutions, PageHost host, FormToken token)
    {
        var form = await PostedForm.Read(context, LargestForm);
        var reason = form?["reason"].FirstOrDefault() is { Length: > 0 } r ? r : null;
        if (form is null || !await token.Fits(context))
        {
            return await SwapOf(id, rank, reason, FormToken.Expired, context, answers, host, token) is { } again
                ? PageResults.Page<SwapPage>(StatusCodes.Status400BadRequest, (nameof(SwapPage.Shown), again))
                : PageResults.NotFound(Unknown);
        }

        var swaps = Swaps(context);
        if (await answers.Read(id, WhatIf.Nothing, swaps, "") is not { } shown || shown.Picks.FirstOrDefault(p => p.Pick.Rank == rank) is not { } pick)
        {
            return PageResults.NotFound(Unknown);
        }

        var outcome = await substitutions.One(RequestOf(shown, pick.Pick, reason), host.Organisation, claim: null);
        var exercise = form["exercise"].FirstOrDefault() ?? "";
        if (outcome.Faults.Count > 0 || outcome.Answer!.Picks.All(p => p.Exercise.Id != exercise))
        {
            return PageResults.Message(StatusCodes.Status422UnprocessableEntity, "This cannot be taken", outcome.Faults.Count > 0 ? string.Join(' ', outcome.Faults.Select(f => f.Message)) : "It is no longer among the substitutes; open the swap again.");
        }

        var next = new Swap(rank, outcome.Answer.DecisionId, exercise);
        return new SeeOther($"/answers/{id}?{string.Join('&', shown.Swaps.Append(next).Select(s => s.Query))}#pick-{rank}");
    }

    private static async Task<ShownSwap?> SwapOf(string id, int rank, string? reason, string? notice, HttpContext context, AnswerReader answers, PageHost host, FormToken token)
    {
        if (await answers.Read(id, WhatIf.Nothing, Swaps(context), "") is not { } shown || shown.Picks.FirstOrDefault(p => p.Pick.Rank == rank && p.InsteadOf is null) is not { } pick)
        {
            return null;
        }

        var request = RequestOf(shown, pick.Pick, reason);
        if (DecisionKind.Substitution.Faults(request, host.Edition).Count > 0)
        {
            // A reason that is none, or one that needs a complaint where there is none.
            (reason, notice) = (null, notice ?? "That reason does not fit this request; these are the substitutes for any reason.");
            request = RequestOf(shown, pick.Pick, null);
        }

        return DecisionKind.Substitution.Faults(request, host.Edition).Count > 0 ? null
            : new ShownSwap(id, pick.Pick, DecisionKind.Substitution.Answer(request, host.Edition, ""), reason, host.Edition, shown.SwapQuery,
                shown.Picks.Select(p => p.Pick.Exercise.Id).ToHashSet(StringComparer.Ordinal), notice, token.For(context));
    }

    private static SubstitutionRequest RequestOf(ShownAnswer shown, Pick pick, string? reason) =>
        new() { Exercise = pick.Exercise.Id, Reason = reason, Context = shown.Request with { Count = null }, Count = Substitutes };

    private static WhatIf Asked(HttpContext context, PageHost host)
    {
        var query = context.Request.Query;
        return WhatIf.Of(query["painUp"].FirstOrDefault(), query["place"].FirstOrDefault(), query["without"], query["weeksOn"].FirstOrDefault(), host.Edition.Catalogue.Vocabulary);
    }

    private static IReadOnlyList<Swap> Swaps(HttpContext context) => [.. context.Request.Query[Swap.Field].Take(30).Select(Swap.Of).OfType<Swap>()];
}
