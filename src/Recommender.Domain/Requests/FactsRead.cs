using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Requests;

/// <summary>What was read from the store for a request, beside the request itself. It goes into the decision's record, so that the decision can be made again.</summary>
/// <param name="Preference">What was learned from the choices of the coach or the organisation; null while nothing is in force.</param>
/// <param name="Cautions">What earlier work taught about this athlete, oldest first.</param>
public sealed record FactsRead(Preference? Preference, IReadOnlyList<LearnedCaution> Cautions)
{
    /// <summary>Nothing was read.</summary>
    public static FactsRead Nothing { get; } = new(null, []);
}

/// <summary>An exercise after which this athlete's pain was higher.</summary>
/// <param name="Exercise">Exercise id, as the catalogue had it then.</param>
/// <param name="DaysAgo">Whole days since it was reported, at least 0.</param>
/// <param name="PainBefore">Pain before the work, 0 to 10; 0 where nothing was said to hurt.</param>
/// <param name="PainDuring">Worst pain during the work, or null.</param>
/// <param name="PainNextMorning">Pain next morning, or null.</param>
/// <param name="LoadingRate">How quickly it loads.</param>
/// <param name="Loads">Region id to the upper end of the load on it, 0 to 10, as the catalogue had it then: of regions that were said to hurt where the work loads one of them notably, else of all that it loads.</param>
public sealed record LearnedCaution(string Exercise, int DaysAgo, int PainBefore, int? PainDuring, int? PainNextMorning, LoadingRate LoadingRate, IReadOnlyDictionary<string, decimal> Loads)
{
    /// <summary>Whether the rules still hold anything because of it.</summary>
    public bool IsInForce(CautionRule rule) => DaysAgo <= rule.Days && Rose(PainBefore, PainDuring, PainNextMorning, rule);

    /// <summary>Whether pain rose enough to be a caution.</summary>
    /// <param name="before">Pain before the work.</param>
    /// <param name="during">Worst pain during it, or null.</param>
    /// <param name="nextMorning">Pain next morning, or null.</param>
    /// <param name="rule">The rule.</param>
    public static bool Rose(int before, int? during, int? nextMorning, CautionRule rule) =>
        (during is { } d && d - before >= rule.RiseDuring) || (nextMorning is { } n && n - before >= rule.RiseNextMorning);
}
