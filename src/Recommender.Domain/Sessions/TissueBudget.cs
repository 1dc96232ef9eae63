using Recommender.Domain.Catalogue;
using Recommender.Domain.Ledger;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Sessions;

/// <summary>What a session may lay on a region, and what the last days have taken of it already.</summary>
/// <param name="Region">Position of the region in the vocabulary.</param>
/// <param name="Budget">Loadings x load of the worse side.</param>
/// <param name="Assumed">Whether it is the rules' for a sore region, not the caller's.</param>
/// <param name="CarriedLeft">Hundredths that the last days' work takes on the left.</param>
/// <param name="CarriedRight">Hundredths that it takes on the right.</param>
internal sealed record TissueBudget(int Region, decimal Budget, bool Assumed, long CarriedLeft, long CarriedRight)
{
    /// <summary>Hundredths left; none where the last days have used it up.</summary>
    /// <param name="budget">The budget, or a larger one to ask again with.</param>
    /// <param name="carried">Hundredths taken.</param>
    public static long Left(decimal budget, long carried) => Math.Max(0, (long)decimal.Round(budget * 100) - carried);

    /// <summary>The budgets of a session: the caller's, and the rules' for sore regions without one; by the vocabulary's order.</summary>
    public static IReadOnlyList<TissueBudget> Of(SessionRequest request, Situation situation)
    {
        var regions = situation.Catalogue.Vocabulary.Regions;
        var budgets = new SortedDictionary<int, (decimal Budget, bool Assumed)>();
        foreach (var (id, budget) in request.Budgets ?? new Dictionary<string, decimal>())
        {
            foreach (var part in regions.PartsOf(regions.Find(id)!))
            {
                var at = regions.IndexOf(part.Id);
                budgets[at] = (budgets.TryGetValue(at, out var other) ? Math.Min(budget, other.Budget) : budget, false);
            }
        }

        foreach (var complaint in situation.Complaints)
        {
            foreach (var sore in complaint.Stands)
            {
                var budget = situation.Knowledge.Session.SoreBudgets.Steps.First(s => sore.Pain <= s.PainAtMost).Budget;
                var at = regions.IndexOf(sore.Region.Id);
                if (!budgets.TryGetValue(at, out var other) || (other.Assumed && other.Budget > budget))
                {
                    budgets[at] = (budget, true);
                }
            }
        }

        if (budgets.Count == 0)
        {
            return [];
        }

        var shares = situation.Knowledge.Session.CarryOver.Shares;
        var carried = WeekLedger.Work(situation, daysAgo => daysAgo < shares.Count ? shares[daysAgo] : 0);
        return [.. budgets.Select(b => new TissueBudget(b.Key, b.Value.Budget, b.Value.Assumed, carried.Left(b.Key), carried.Right(b.Key)))];
    }
}
