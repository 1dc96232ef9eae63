using Recommender.Domain.Catalogue;
using Recommender.Domain.Needs;

namespace Recommender.Domain.Sessions;

/// <summary>
/// Need points with diminishing returns, cut into layers: a rating of 3 belongs to three layers of its quality, each worth what that rating adds over the
/// one below. So a strong pick counts before a weak one, whatever the order they come in.
/// </summary>
internal sealed class CoverageLayers
{
    private const int Ratings = 3;
    private readonly int[] first; // [quality] first of its layers, or -1

    /// <param name="needs">Points of the needs.</param>
    /// <param name="qualities">Qualities of the vocabulary.</param>
    /// <param name="nthShare">Share that the n-th pick brings.</param>
    public CoverageLayers(NeedTable needs, int qualities, IReadOnlyList<decimal> nthShare)
    {
        first = new int[qualities];
        var gains = new List<int[]>();
        for (var q = 0; q < qualities; q++)
        {
            first[q] = needs.At(q, Ratings) > 0 ? gains.Count : -1;
            for (var rating = 1; rating <= Ratings && first[q] >= 0; rating++)
            {
                var step = needs.At(q, rating) - (rating == 1 ? 0 : needs.At(q, rating - 1));
                gains.Add([.. nthShare.Select(share => (int)decimal.Round(step * share, MidpointRounding.AwayFromZero))]);
            }
        }

        Gains = [.. gains];
    }

    /// <summary>[layer][n] thousandths that the n-th pick brings.</summary>
    public int[][] Gains { get; }

    /// <summary>Layers of an exercise.</summary>
    public int[] Of(ExerciseCatalogue catalogue, int position)
    {
        var layers = new List<int>();
        foreach (var (quality, rating) in catalogue.RatingsOf(position))
        {
            for (var r = 0; r < rating && first[quality] >= 0; r++)
            {
                layers.Add(first[quality] + r);
            }
        }

        return [.. layers];
    }

    /// <summary>Thousandths that picks of these ratings bring for a quality.</summary>
    public int Points(int quality, IEnumerable<int> ratings)
    {
        var sum = 0;
        if (first[quality] < 0)
        {
            return sum;
        }

        var members = new int[Ratings];
        foreach (var rating in ratings)
        {
            for (var r = 0; r < rating; r++)
            {
                var gains = Gains[first[quality] + r];
                sum += members[r] < gains.Length ? gains[members[r]++] : 0;
            }
        }

        return sum;
    }

    /// <summary>Thousandths that a quality brings at most.</summary>
    public int Most(int quality) => first[quality] < 0 ? 0 : Gains[first[quality]].Zip(Gains[first[quality] + 1], Gains[first[quality] + 2]).Sum(g => g.First + g.Second + g.Third);
}
