using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Scoring;

/// <summary>What learned numbers add to points that were taken down before, by the same arithmetic as in an answer.</summary>
public sealed class LearnedScore
{
    private readonly int[] shares;
    private readonly IReadOnlyDictionary<string, decimal> families;
    private readonly int most;

    /// <param name="numbers">The numbers; null for none.</param>
    /// <param name="bounds">Their bounds.</param>
    public LearnedScore(PreferenceNumbers? numbers, PreferenceBounds bounds)
    {
        shares = numbers is null ? new int[ScoringEngine.Factors.Count] : LeanTable.SharesOf(numbers, bounds);
        families = numbers?.Families ?? new Dictionary<string, decimal>();
        most = Points.Of(bounds.MostPoints).Thousandths;
    }

    /// <summary>Score with what was learned, thousandths.</summary>
    /// <param name="points">Thousandths of every factor but the learned one, in the order of the engine.</param>
    /// <param name="family">Variant family.</param>
    /// <param name="loadsSore">Whether it loads what is sore; null where nothing is.</param>
    public int Of(IReadOnlyList<int> points, string family, bool? loadsSore)
    {
        var (score, lean, growth) = (0, Points.Of(families.GetValueOrDefault(family)).Thousandths, 0);
        for (var f = 0; f < points.Count; f++)
        {
            var part = LeanTable.Share(shares[f], points[f]);
            score += points[f];
            lean += part;
            growth = f == LeanTable.TissueCost ? part : growth;
        }

        return score + Math.Clamp(LeanTable.Held(lean, growth, loadsSore), -most, most);
    }
}
