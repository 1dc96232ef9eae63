using Recommender.Domain.Scoring;

namespace Recommender.Pages.Answers;

/// <summary>One piece of a contribution bar.</summary>
/// <param name="Contribution">What it stands for.</param>
/// <param name="Start">Left edge, percent of the bar's length.</param>
/// <param name="Width">Length, percent.</param>
public sealed record Segment(Contribution Contribution, decimal Start, decimal Width);

/// <summary>
/// A contribution bar: what speaks for a pick laid end to end from zero, then what speaks against it taken off from the end, so that its last edge is the score.
/// </summary>
/// <param name="For">Gains, from left to right.</param>
/// <param name="Against">Costs, each ending where the one before began.</param>
/// <param name="Zero">Where zero lies, percent.</param>
/// <param name="Score">Where the score lies, percent.</param>
public sealed record ContributionSegments(IReadOnlyList<Segment> For, IReadOnlyList<Segment> Against, decimal Zero, decimal Score)
{
    /// <summary>Lays out one pick's contributions.</summary>
    /// <param name="contributions">Contributions.</param>
    /// <param name="least">Lowest point of the scale shared by the picks, thousandths, at most 0.</param>
    /// <param name="most">Highest point, thousandths, above <paramref name="least"/>.</param>
    public static ContributionSegments Of(IReadOnlyList<Contribution> contributions, int least, int most)
    {
        var length = (decimal)Math.Max(1, most - least);
        decimal At(int thousandths) => (thousandths - least) * 100m / length;
        var at = 0;
        var gains = new List<Segment>();
        foreach (var c in contributions.Where(c => c.Points.Thousandths > 0))
        {
            gains.Add(new Segment(c, At(at), c.Points.Thousandths * 100m / length));
            at += c.Points.Thousandths;
        }

        var costs = new List<Segment>();
        foreach (var c in contributions.Where(c => c.Points.Thousandths < 0))
        {
            at += c.Points.Thousandths;
            costs.Add(new Segment(c, At(at), -c.Points.Thousandths * 100m / length));
        }

        return new ContributionSegments(gains, costs, At(0), At(at));
    }

    /// <summary>The scale that holds every pick: the lowest and highest point of any bar, thousandths.</summary>
    public static (int Least, int Most) Scale(IEnumerable<IReadOnlyList<Contribution>> picks)
    {
        var (least, most) = (0, 1);
        foreach (var contributions in picks)
        {
            most = Math.Max(most, contributions.Where(c => c.Points.Thousandths > 0).Sum(c => c.Points.Thousandths));
            least = Math.Min(least, contributions.Sum(c => c.Points.Thousandths));
        }

        return (least, most);
    }
}
