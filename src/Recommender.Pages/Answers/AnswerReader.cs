using Recommender.Answers;
using Recommender.Answers.Learned;
using Recommender.Domain.Decisions;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Pages.Hosting;
using Recommender.Pages.Words;

namespace Recommender.Pages.Answers;

/// <summary>Opens an answer for the page: the record, the swaps that stand in the address, and what a what-if would change.</summary>
/// <param name="decisions">Opens records.</param>
/// <param name="athletes">Saved athletes, for names.</param>
/// <param name="editions">Editions that decisions were made on.</param>
/// <param name="outcomes">What was reported of picks.</param>
/// <param name="host">Whose pages, and the edition in force.</param>
public sealed class AnswerReader(OpenDecision decisions, SavedAthletes athletes, Editions editions, ReportOutcome outcomes, PageHost host)
{
    /// <summary>The answer as it stands, or null when there is none of this id.</summary>
    /// <param name="decisionId">Id.</param>
    /// <param name="whatIf">Changes to look at.</param>
    /// <param name="swaps">Swaps; one that fits nothing is left out.</param>
    /// <param name="token">Form token.</param>
    public async Task<ShownAnswer?> Read(string decisionId, WhatIf whatIf, IReadOnlyList<Swap> swaps, string token)
    {
        if (await decisions.Recommendation(host.Organisation, decisionId).ConfigureAwait(false) is not { } opened)
        {
            return null;
        }

        // A what-if is answered on the versions of the answer, so that all that moves is what was changed; on today's where those are gone.
        var edition = await editions.Of(host.Organisation, opened.Answer.Versions).ConfigureAwait(false) ?? host.Edition;
        var reference = opened.Request.Athlete!.Ref;
        var name = reference is null ? null : (await athletes.One(host.Organisation, reference).ConfigureAwait(false))?.Name ?? reference;
        if (whatIf.Any)
        {
            var request = whatIf.Apply(opened.Request, edition);
            if (DecisionKind.Recommendation.Faults(request, edition).Count == 0)
            {
                var answer = DecisionKind.Recommendation.Answer(request, edition, "");
                return new ShownAnswer(decisionId, opened.CreatedAt, request, answer, [.. answer.Picks.Select(p => new ShownPick(p, null, Change(p, opened.Answer)))], name, edition, whatIf, Lost(opened.Answer, answer, request, edition), [], token);
            }
        }

        var (picks, kept) = await Swapped(opened.Answer, swaps).ConfigureAwait(false);
        return new ShownAnswer(decisionId, opened.CreatedAt, opened.Request, opened.Answer, picks, name, edition, WhatIf.Nothing, [], kept, token)
        {
            Reports = (await outcomes.OfDecision(host.Organisation, decisionId).ConfigureAwait(false))?.Items.Where(o => o.Counts).ToDictionary(o => o.Exercise, StringComparer.Ordinal) ?? [],
        };
    }

    private async Task<(IReadOnlyList<ShownPick> Picks, IReadOnlyList<Swap> Kept)> Swapped(Answer answer, IReadOnlyList<Swap> swaps)
    {
        var picks = answer.Picks.Select(p => new ShownPick(p, null, null)).ToList();
        var kept = new List<Swap>();
        foreach (var swap in swaps)
        {
            // Any record may stand in an address; only one that replaced this pick counts.
            if (picks.FindIndex(p => p.Pick.Rank == swap.Rank && p.InsteadOf is null) is >= 0 and var at
                && await decisions.Substitution(host.Organisation, swap.DecisionId).ConfigureAwait(false) is { } offered
                && offered.Answer.Replaced.Exercise == picks[at].Pick.Exercise.Id
                && offered.Answer.Picks.FirstOrDefault(p => p.Exercise.Id == swap.Exercise) is { } taken)
            {
                picks[at] = new ShownPick(taken with { Rank = swap.Rank }, picks[at].Pick.Exercise.Name, null);
                kept.Add(swap);
            }
        }

        return (picks, kept);
    }

    /// <summary>What differs from the answer on record, for a pick.</summary>
    private static string? Change(Pick pick, Answer before)
    {
        if (before.Picks.FirstOrDefault(p => p.Exercise.Id == pick.Exercise.Id) is not { } was)
        {
            return "new here";
        }

        var changes = new List<string>();
        if (was.Rank != pick.Rank)
        {
            changes.Add($"was number {was.Rank}");
        }

        if (Say.Whole(was.Dose) != Say.Whole(pick.Dose))
        {
            changes.Add($"dose was {Say.Whole(was.Dose)}");
        }
        else if (was.Dose is { } a && pick.Dose is { } b && (a.Intensity != b.Intensity || a.LoadKg != b.LoadKg))
        {
            changes.Add($"was at {Say.Intensity(a.Intensity)}{(Say.Kilograms(a) is { } kg ? $", {kg}" : "")}");
        }

        return changes.Count == 0 ? null : string.Join("; ", changes);
    }

    private static List<GonePick> Lost(Answer before, Answer now, RecommendationRequest request, Edition edition)
    {
        var situation = Situation.Of(request, edition);
        var closed = new WhyClosed(new GateContext(situation, TissueLimits.Of(situation)));
        return [.. before.Picks.Where(p => now.Picks.All(n => n.Exercise.Id != p.Exercise.Id)).Select(p => new GonePick(p.Exercise.Name, Because(closed.Of(p.Exercise.Id), edition)))];
    }

    private static string Because(IReadOnlyList<string> closed, Edition edition) =>
        closed.Count == 0 ? "it may still be done, but others come first" : Say.Named(string.Join("; ", closed), edition.Catalogue);
}
