using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>A day with work or a competition, ahead or today.</summary>
/// <param name="Kind">Kind of training.</param>
/// <param name="InDays">Days ahead; 0 is today.</param>
public readonly record struct HardDay(TrainingKind Kind, int InDays);

/// <summary>What competitions and the rest of the week say: weeks to the peak, and the hard days ahead.</summary>
/// <param name="Weeks">Weeks to the competition that the peak is for, two decimals; null when no competition is named.</param>
/// <param name="HardDays">Hard days, nearest first; equal ones in the order of the rules.</param>
/// <param name="Today">Kinds of work on the same day, hard or not.</param>
/// <param name="Protections">Bit per rule of <see cref="WeekRules.Protections"/> that a hard day brings into force.</param>
public sealed record Calendar(decimal? Weeks, IReadOnlyList<HardDay> HardDays, IReadOnlyList<string> Today, ulong Protections)
{
    private static readonly Calendar Empty = new(null, [], [], 0);

    /// <summary>The calendar of a request.</summary>
    public static Calendar Of(RecommendationRequest request, string eventGroup, WeekRules rules)
    {
        if (request.Training is not { Count: > 0 } && request.Competitions is not { Count: > 0 })
        {
            return Empty;
        }

        var done = request.Setting?.Slot is { } slot && rules.DoneBefore.Slots.Contains(slot, StringComparer.Ordinal);
        var kinds = rules.Kinds.Select((kind, i) => (kind, i)).ToDictionary(k => k.kind.Id, k => k, StringComparer.Ordinal);
        var hard = (request.Training ?? [])
            .Where(t => t.DaysFromToday >= (done ? 1 : 0) && (t.Effort ?? 0) >= kinds[t.Kind!].kind.HardFromEffort)
            .Select(t => new HardDay(kinds[t.Kind!].kind, t.DaysFromToday!.Value))
            .Concat((request.Competitions ?? []).Where(Ahead).Select(c => new HardDay(kinds[TrainingKind.Competition].kind, Math.Max(0, c.DaysToStart!.Value))))
            .Distinct()
            .OrderBy(d => d.InDays).ThenBy(d => kinds[d.Kind.Id].i)
            .ToList();
        var today = (request.Training ?? []).Where(t => t.DaysFromToday == 0).Select(t => t.Kind!).Distinct(StringComparer.Ordinal).ToList();
        ulong protections = 0;
        for (var p = 0; p < rules.Protections.Count; p++)
        {
            var rule = rules.Protections[p];
            if ((rule.EventGroups is null || rule.EventGroups.Contains(eventGroup, StringComparer.Ordinal))
                && hard.Exists(d => d.InDays < rule.DaysBelow && rule.Kinds.Contains(d.Kind.Id, StringComparer.Ordinal)))
            {
                protections |= 1UL << p;
            }
        }

        return new Calendar(WeeksTo(request.Competitions, rules.Competitions), hard, today, protections);
    }

    /// <summary>The nearest hard day that brings a protection into force.</summary>
    /// <exception cref="InvalidOperationException">The protection is not in force.</exception>
    public HardDay DayOf(ProtectedDay rule) => HardDays.First(d => d.InDays < rule.DaysBelow && rule.Kinds.Contains(d.Kind.Id, StringComparer.Ordinal));

    private static decimal? WeeksTo(IReadOnlyList<Competition>? competitions, PeakRule rule)
    {
        foreach (var priority in rule.PeaksFor)
        {
            var next = (competitions ?? []).Where(c => (c.Priority ?? "main") == priority && Ahead(c)).Select(c => Math.Max(0, c.DaysToStart!.Value)).DefaultIfEmpty(-1).Min();
            if (next >= 0)
            {
                return decimal.Round(next / 7m, 2);
            }
        }

        return null;
    }

    /// <summary>Whether it is to come or still under way.</summary>
    private static bool Ahead(Competition c) => c.DaysToStart!.Value + (c.Days ?? 1) > 0;
}
