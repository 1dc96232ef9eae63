using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Needs;

/// <summary>What one rule adds to one quality.</summary>
/// <param name="Rule">Rule id.</param>
/// <param name="Measure">Measure it is about; a measure's raises share its cap.</param>
/// <param name="Quality">Quality id.</param>
/// <param name="Weight">Weight before all needs are scaled to 1.</param>
/// <param name="Note">For the explanation.</param>
/// <param name="Basis">Weakest of bound, error and weight.</param>
/// <param name="Source">Source id of the bound, or null.</param>
internal sealed record TestRaise(string Rule, string Measure, string Quality, decimal Weight, string Note, Basis Basis, string? Source);

/// <summary>Caps on what tests add: they tilt a profile and do not replace it.</summary>
internal static class TestRaises
{
    /// <summary>The raises with every cap kept: of one measure, of one quality, of all together. Each cap scales what is under it in proportion.</summary>
    /// <param name="raises">What the rules would add.</param>
    /// <param name="use">Caps of measures and qualities.</param>
    /// <param name="totalCap">Cap of all together.</param>
    public static List<TestRaise> Capped(List<TestRaise> raises, TestUse use, decimal totalCap)
    {
        if (raises.Count == 0)
        {
            return raises;
        }

        var capped = Scaled(raises, r => r.Measure, use.MeasureCap.Value);
        capped = Scaled(capped, r => r.Quality, use.QualityCap.Value);
        return Scaled(capped, _ => "", totalCap);
    }

    private static List<TestRaise> Scaled(List<TestRaise> raises, Func<TestRaise, string> part, decimal cap)
    {
        var sums = raises.GroupBy(part, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Sum(r => r.Weight), StringComparer.Ordinal);
        return [.. raises.Select(r => sums[part(r)] is var sum && sum > cap ? r with { Weight = r.Weight * cap / sum } : r)];
    }
}
