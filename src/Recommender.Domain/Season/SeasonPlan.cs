using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Season;

/// <summary>Which phase each day up to the main competition belongs to.</summary>
/// <param name="Days">Days from today to the competition, 0 or more.</param>
/// <param name="Phases">Today's phase first; they follow one another without a gap down to day 0. At least one.</param>
public sealed record SeasonPlan(int Days, IReadOnlyList<PhaseSpan> Phases)
{
    private const int DaysPerWeek = 7;

    /// <summary>The phase of a day.</summary>
    /// <param name="daysBefore">Days before the competition, 0 to <see cref="Days"/>.</param>
    public Phase At(int daysBefore) => Phases.First(p => daysBefore >= p.ToDay).Phase;

    /// <summary>Lays the phases out.</summary>
    /// <param name="days">Days to the competition, 0 or more.</param>
    /// <param name="today">Today's phase; null to take the one of a usual season.</param>
    /// <param name="typed">Weeks that the coach gave later phases, each 0 or more; a phase that is not there takes its usual length.</param>
    /// <param name="rules">Usual lengths.</param>
    /// <returns>The plan. Later phases keep their lengths and today's takes what is left; where there is less than they take together, all shrink in proportion, unless lengths were typed:
    /// then those nearest to the competition keep theirs.</returns>
    public static SeasonPlan Of(int days, Phase? today, IReadOnlyDictionary<Phase, int> typed, SeasonRules rules)
    {
        var order = rules.Phases.ToList();
        var first = today is { } named ? order.FindIndex(p => p.Phase == named) : Usual(order, days);
        if (first < 0)
        {
            // A phase that the usual season does not know lasts to the competition.
            return new SeasonPlan(days, [new PhaseSpan(today!.Value, days, 0)]);
        }

        var later = order.Skip(first + 1).Select(p => new PhaseLength(p.Phase, typed.TryGetValue(p.Phase, out var weeks) ? weeks : p.Weeks)).ToList();
        var together = later.Sum(p => p.Weeks) + order[first].Weeks;
        if (later.Count > 0 && typed.Count == 0 && together * DaysPerWeek > days)
        {
            var whole = LargestRemainder.Apportion([order[first].Weeks, .. later.Select(p => (decimal)p.Weeks)], Math.Max(1, days / DaysPerWeek));
            if (whole[0] == 0)
            {
                // Today is in today's phase, however little is left of it.
                whole[Array.IndexOf(whole, whole.Max())]--;
            }

            later = [.. later.Select((p, i) => p with { Weeks = whole[i + 1] })];
        }

        var spans = new List<PhaseSpan>();
        var end = 0;
        foreach (var phase in Enumerable.Reverse(later).Where(p => p.Weeks > 0 && end < days))
        {
            var start = Math.Min(days, end + (phase.Weeks * DaysPerWeek) - 1);
            spans.Add(new PhaseSpan(phase.Phase, start, end));
            end = start + 1;
        }

        if (end <= days)
        {
            spans.Add(new PhaseSpan(order[first].Phase, days, end));
        }

        spans.Reverse();
        return new SeasonPlan(days, spans);
    }

    /// <summary>The phase that a usual season is in so many days before.</summary>
    private static int Usual(List<PhaseLength> order, int days)
    {
        var end = 0;
        for (var i = order.Count - 1; i > 0; i--)
        {
            end += order[i].Weeks * DaysPerWeek;
            if (days < end)
            {
                return i;
            }
        }

        // Longer before than the usual season reaches: preparation, since nobody said that it is a break.
        return Math.Max(0, order.FindIndex(p => p.Phase != Phase.Transition));
    }
}

/// <summary>Days that belong to a phase.</summary>
/// <param name="Phase">Phase.</param>
/// <param name="FromDay">First day, counted before the competition.</param>
/// <param name="ToDay">Last day, 0 or more and at most <paramref name="FromDay"/>.</param>
public sealed record PhaseSpan(Phase Phase, int FromDay, int ToDay);
