using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Eligibility.Gates;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Season;

/// <summary>A season day by day, asked of the stages that answer a request: what is needed in each phase, and what goes out when.</summary>
/// <param name="Plan">The plan.</param>
/// <param name="Phases">Needs by phase, in the plan's order.</param>
/// <param name="Possible">How many exercises the other gates let through as things stand today.</param>
/// <param name="Ends">What ends, earliest first.</param>
/// <param name="TaperFrom">Days before the competition from which the volume is that of the taper; null when it never is.</param>
/// <param name="Taper">The rule that says so; null where the taper phase itself does.</param>
public sealed record SeasonOutlook(SeasonPlan Plan, IReadOnlyList<PhaseNeeds> Phases, int Possible, IReadOnlyList<SeasonEnd> Ends, int? TaperFrom, TaperRule? Taper)
{
    /// <summary>The outlook of an athlete.</summary>
    /// <param name="request">A request without faults; its phase, weeks, competitions, recent work and training are replaced day by day, all else is held as it is today.</param>
    /// <param name="plan">Phases up to the competition.</param>
    /// <param name="edition">Catalogue and rules.</param>
    public static SeasonOutlook Of(RecommendationRequest request, SeasonPlan plan, Edition edition)
    {
        var possible = Possibly(At(request, plan, plan.Days, null, edition));
        // As long ago as every window still takes for familiar, so that no soreness of it is left.
        var daysAgo = edition.Knowledge.Peaking.Windows.Min(w => w.UnlessDoneWithinDays);
        IReadOnlyList<RecentWork>? done = daysAgo is null ? null : [.. possible.Select(p => new RecentWork { Exercise = edition.Catalogue.Exercises[p].Id, DaysAgo = daysAgo })];
        var fresh = Ending(null);
        var familiar = Ending(done);
        List<SeasonEnd> ends =
        [
            .. Grouped(familiar, onlyNew: false),
            .. Grouped(fresh.Where(f => !familiar.TryGetValue(f.Key, out var end) || end.Day < f.Value.Day), onlyNew: true),
        ];
        var taper = Enumerable.Range(0, plan.Days + 1).Select(d => plan.Days - d).Select(d => (Day: d, Situation: At(request, plan, d, null, edition))).FirstOrDefault(x => x.Situation.VolumePhase == Phase.Taper);
        return new SeasonOutlook(plan, [.. plan.Phases.Select(p => new PhaseNeeds(p, NeedAnalysis.Derive(At(request, plan, p.FromDay, null, edition)).Needs))], possible.Count,
            [.. ends.OrderByDescending(e => e.DaysBefore).ThenBy(e => e.OnlyNew).ThenBy(e => e.Rule, StringComparer.Ordinal)], taper.Situation is null ? null : taper.Day, taper.Situation?.Taper);

        Dictionary<int, (int Day, EndRule Rule)> Ending(IReadOnlyList<RecentWork>? recent)
        {
            // Rules hold below a number of days, so what has gone out stays out.
            var ended = new Dictionary<int, (int, EndRule)>();
            for (var day = plan.Days; day >= 0; day--)
            {
                var situation = At(request, plan, day, recent, edition);
                var context = new GateContext(situation, TissueLimits.Of(situation));
                foreach (var position in possible)
                {
                    if (!ended.ContainsKey(position) && RuleOf(context, position) is { } rule)
                    {
                        ended[position] = (day, rule);
                    }
                }
            }

            return ended;
        }
    }

    private static IEnumerable<SeasonEnd> Grouped(IEnumerable<KeyValuePair<int, (int Day, EndRule Rule)>> ended, bool onlyNew) =>
        ended.GroupBy(e => e.Value).Select(g => new SeasonEnd(g.Key.Day, g.Key.Rule.Id, onlyNew, g.Key.Rule.Note, g.Key.Rule.Basis, g.Key.Rule.Source, [.. g.Select(e => e.Key).Order()]));

    private static EndRule? RuleOf(GateContext context, int position) =>
        OutsidePeakingWindow.Broken(context, position) is { } window ? new EndRule(window.Id, window.Note, window.Basis, window.Source)
        : HardDayKeptFree.Asking(context, position) is { } day ? new EndRule(day.Id, day.Note, day.Basis, day.Source)
        : null;

    /// <summary>What the gates that do not look at the date let through.</summary>
    private static List<int> Possibly(Situation situation)
    {
        var context = new GateContext(situation, TissueLimits.Of(situation));
        if (context.Limits.Referral?.Scope == "all")
        {
            return [];
        }

        var gates = EligibilityFilter.Gates.Where(g => g is not (OutsidePeakingWindow or HardDayKeptFree) && g.Asks(context)).ToList();
        return [.. Enumerable.Range(0, situation.Catalogue.Count).Where(p => gates.TrueForAll(g => !g.Refuses(context, p)))];
    }

    private static Situation At(RecommendationRequest request, SeasonPlan plan, int day, IReadOnlyList<RecentWork>? recent, Edition edition) => Situation.Of(
        request with
        {
            Phase = edition.Catalogue.Vocabulary.Phases[(int)plan.At(day)].Id,
            WeeksToCompetition = null,
            Competitions = [new Competition { DaysToStart = day }],
            Recent = recent,
            Training = null,
            SessionRatings = null,
        },
        edition);

    private sealed record EndRule(string Id, string Note, Basis Basis, string? Source);
}

/// <summary>What is needed in a phase.</summary>
/// <param name="Span">The phase and its days.</param>
/// <param name="Needs">Heaviest first; weights sum to 1.</param>
public sealed record PhaseNeeds(PhaseSpan Span, IReadOnlyList<Need> Needs);

/// <summary>Exercises that go out on one day for one reason.</summary>
/// <param name="DaysBefore">First day without them, counted before the competition.</param>
/// <param name="Rule">Id of the rule.</param>
/// <param name="OnlyNew">Whether they are only not begun any more: what was done lately may go on.</param>
/// <param name="Note">Why.</param>
/// <param name="Basis">Where it comes from.</param>
/// <param name="Source">Source id, or null.</param>
/// <param name="Positions">Catalogue positions, ascending; at least one.</param>
public sealed record SeasonEnd(int DaysBefore, string Rule, bool OnlyNew, string Note, Basis Basis, string? Source, IReadOnlyList<int> Positions);
