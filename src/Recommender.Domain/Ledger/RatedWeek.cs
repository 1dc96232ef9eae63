using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Ledger;

/// <summary>A week of rated sessions, as foster-1998 sums it up.</summary>
/// <param name="Load">Sum over the days of effort x minutes.</param>
/// <param name="DailyMean">Mean daily load, rest days counting as 0; two decimals.</param>
/// <param name="Deviation">Standard deviation of the daily loads; two decimals.</param>
/// <param name="DeviationOf">sample (n - 1) or population (n).</param>
/// <param name="Monotony">Mean over deviation, three decimals; null when every day was alike, as the ratio is then undefined.</param>
/// <param name="Strain">Load x monotony, whole; null with it.</param>
/// <param name="Note">How to read it.</param>
public sealed record RatedWeek(decimal Load, decimal DailyMean, decimal Deviation, string DeviationOf, decimal? Monotony, decimal? Strain, string Note)
{
    /// <summary>The week of these ratings; null when none lies in it.</summary>
    /// <param name="ratings">Rated sessions.</param>
    /// <param name="rules">Days and deviation.</param>
    public static RatedWeek? Of(IReadOnlyList<SessionRating>? ratings, RatingsRule rules)
    {
        var inWeek = (ratings ?? []).Where(r => r.DaysAgo < rules.Days).ToList();
        if (inWeek.Count == 0)
        {
            return null;
        }

        var days = new decimal[rules.Days];
        foreach (var rating in inWeek)
        {
            days[rating.DaysAgo!.Value] += rating.Effort!.Value * rating.Minutes!.Value;
        }

        var load = days.Sum();
        var mean = load / days.Length;
        var squares = days.Sum(d => (d - mean) * (d - mean));
        var deviation = (decimal)Math.Sqrt((double)(squares / (rules.Deviation == "sample" ? days.Length - 1 : days.Length)));
        var flat = squares == 0;
        return new RatedWeek(load, decimal.Round(mean, 2), decimal.Round(deviation, 2), rules.Deviation,
            flat ? null : decimal.Round(mean / deviation, 3), flat ? null : decimal.Round(load * mean / deviation), rules.Note);
    }
}
