using Recommender.Answers;
using Recommender.Domain.Groups;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Answers;
using Recommender.Pages.Hosting;

namespace Recommender.Pages.Squad;

/// <summary>Opens a group's sheet: the answers on record, the trades that stand in the address, and what else could be traded.</summary>
/// <param name="decisions">Opens records.</param>
/// <param name="athletes">Saved athletes, for names.</param>
/// <param name="host">Whose pages, and the edition in force.</param>
public sealed class SheetReader(OpenDecision decisions, SavedAthletes athletes, PageHost host)
{
    /// <summary>Most athletes on a sheet.</summary>
    public const int MostAthletes = 60;

    private const int MostRacks = 20;

    /// <summary>The sheet; null when nothing of the address is on record.</summary>
    /// <param name="ids">Decisions, in order.</param>
    /// <param name="trades">Trades; those that fit nothing are left out.</param>
    /// <param name="lacking">Refs that could not be answered.</param>
    /// <param name="racks">Racks; null for the usual number.</param>
    /// <param name="notice">What to tell, or null.</param>
    /// <param name="token">Form token.</param>
    public async Task<ShownSheet?> Read(IReadOnlyList<string> ids, IReadOnlyList<SheetTrade> trades, IReadOnlyList<string> lacking, int? racks, string? notice, string token)
    {
        var names = (await athletes.All(host.Organisation).ConfigureAwait(false)).ToDictionary(a => a.Ref, a => a.Name, StringComparer.Ordinal);
        var edition = host.Edition;
        var lines = new List<SheetLine>();
        var kept = new List<SheetTrade>();
        foreach (var (id, i) in ids.Select((id, i) => (id, i)))
        {
            if (await decisions.Recommendation(host.Organisation, id).ConfigureAwait(false) is not { } opened)
            {
                continue;
            }

            var reference = opened.Request.Athlete!.Ref;
            var picks = opened.Answer.Picks.Select(p => new ShownPick(p, null, null)).ToList();
            var swaps = new List<Swap>();
            foreach (var trade in trades.Where(t => t.Line == i))
            {
                // Any record may stand in an address; only one that replaced this athlete's pick counts.
                if (picks.FindIndex(p => p.Pick.Rank == trade.Swap.Rank && p.InsteadOf is null) is >= 0 and var at
                    && await decisions.Substitution(host.Organisation, trade.Swap.DecisionId).ConfigureAwait(false) is { } offered
                    && offered.Answer.Replaced.Exercise == picks[at].Pick.Exercise.Id && offered.Request.Context?.Athlete?.Ref == reference
                    && offered.Answer.Picks.FirstOrDefault(p => p.Exercise.Id == trade.Swap.Exercise) is { } taken)
                {
                    picks[at] = new ShownPick(taken with { Rank = trade.Swap.Rank }, picks[at].Pick.Exercise.Name, null);
                    swaps.Add(trade.Swap);
                    kept.Add(trade);
                }
            }

            lines.Add(new SheetLine(id, opened.CreatedAt, reference is not null && names.TryGetValue(reference, out var name) ? name : reference ?? "No name", reference, opened.Request, opened.Answer, picks, swaps));
        }

        if (lines.Count == 0 && lacking.Count == 0)
        {
            return null;
        }

        var planning = edition.Knowledge.Planning;
        var count = Math.Clamp(racks ?? planning?.Stations.Racks ?? 1, 1, MostRacks);
        var query = $"?d={string.Join(',', ids.Select(Uri.EscapeDataString))}{string.Concat(kept.Select(t => "&" + t.Query))}{string.Concat(lacking.Select(l => "&lacking=" + Uri.EscapeDataString(l)))}";
        return new ShownSheet(lines, [.. lacking.Select(r => names.GetValueOrDefault(r, r))], planning is null ? [] : Tradeable(lines, edition, planning.Sharing),
            planning is null || lines.Count < 2 ? null : StationPlan.Of([.. lines.Select(l => l.Picks.Select(p => p.Pick).ToList())], count, planning.Stations), count, query, edition, notice, token);
    }

    /// <summary>Trades among those whose answers were made on what is in force; on other numbers a substitute's points could not be set beside the pick's.</summary>
    private static List<GroupTrade> Tradeable(List<SheetLine> lines, Edition edition, SharingRules rules)
    {
        if (lines.Count < 2 || lines.Exists(l => l.Answer.Versions.Rules != edition.RulesVersion || l.Answer.Versions.Catalogue != edition.CatalogueVersion || DecisionKind.Recommendation.Faults(l.Request, edition).Count > 0))
        {
            return [];
        }

        return [.. GroupTrades.Of([.. lines.Select(l => new GroupMember(l.Request, [.. l.Picks.Select(p => p.Pick)]))], edition, rules)];
    }
}
