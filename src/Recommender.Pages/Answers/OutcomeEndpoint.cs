using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers.Learned;
using Recommender.Domain.Outcomes;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Answers;

/// <summary>POST /answers/{id}/outcome/{rank}: what was done with a pick, one tap.</summary>
internal static class OutcomeEndpoint
{
    private const int LargestForm = 16 * 1024;

    /// <summary>Maps it.</summary>
    public static void Map(IEndpointRouteBuilder routes) => routes.MapPost("/answers/{id}/outcome/{rank:int}", Report);

    private static async Task<IResult> Report(HttpContext context, string id, int rank, AnswerReader answers, ReportOutcome outcomes, PageHost host, FormToken token)
    {
        if (await PostedForm.Read(context, LargestForm) is not { } form || !await token.Fits(context))
        {
            return PageResults.Message(StatusCodes.Status400BadRequest, "Nothing was recorded", FormToken.Expired);
        }

        IReadOnlyList<Swap> swaps = [.. context.Request.Query[Swap.Field].Take(30).Select(Swap.Of).OfType<Swap>()];
        if (await answers.Read(id, WhatIf.Nothing, swaps, "") is not { } shown || shown.Answer.Picks.FirstOrDefault(p => p.Rank == rank) is not { } pick)
        {
            return PageResults.NotFound("There is no pick under this address.");
        }

        // Only a swap that is on record stands on the page; what was done then is the substitute.
        var instead = shown.Picks.FirstOrDefault(p => p.Pick.Rank == rank && p.InsteadOf is not null)?.Pick.Exercise.Id;
        List<string> wrong = [];
        var verdict = form["verdict"].FirstOrDefault();
        var went = verdict != Verdicts.Declined;
        var report = new OutcomeReport
        {
            Exercise = pick.Exercise.Id,
            Verdict = instead is not null && verdict == Verdicts.Used ? Verdicts.Swapped : verdict,
            ReplacedBy = went ? instead : null,
            PainDuring = went ? (int?)Number("painDuring", whole: true) : null,
            PainNextMorning = went ? (int?)Number("painNextMorning", whole: true) : null,
            Effort = went ? Number("effort", whole: false) : null,
            Note = form["note"].FirstOrDefault() is { Length: > 0 } note ? note : null,
        };
        if (wrong.Count == 0)
        {
            var reported = await outcomes.Take(host.Organisation, id, report);
            if (reported.State == ReportState.AthleteErased)
            {
                return PageResults.Message(StatusCodes.Status409Conflict, "Nothing was recorded", "The athlete of this answer was erased, so nothing more is kept about them.");
            }

            wrong.AddRange(reported.Faults.Select(f => f.Message));
        }

        return wrong.Count > 0 ? PageResults.Message(StatusCodes.Status422UnprocessableEntity, "This cannot be recorded", string.Join(' ', wrong)) : new SeeOther($"/answers/{id}{shown.SwapQuery}#pick-{rank}");

        decimal? Number(string field, bool whole)
        {
            var typed = form[field].FirstOrDefault()?.Trim() ?? "";
            if (typed.Length == 0)
            {
                return null;
            }

            if (decimal.TryParse(typed.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value <= 1000 && (!whole || value == decimal.Truncate(value)))
            {
                return value;
            }

            wrong.Add($"{field switch { "painDuring" => "Pain in it", "painNextMorning" => "Pain next morning", _ => "Effort" }} is no {(whole ? "whole number" : "number")}; give 0 to 10 or leave it empty.");
            return null;
        }
    }
}
