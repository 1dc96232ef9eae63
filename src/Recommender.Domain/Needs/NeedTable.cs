using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Needs;

/// <summary>Points of every quality at every rating for one need profile; flat, for the hot path.</summary>
public sealed class NeedTable
{
    private readonly int[] points;

    /// <param name="profile">What is needed.</param>
    /// <param name="rule">Maximum points and fit of each rating.</param>
    /// <param name="qualityCount">Qualities in the vocabulary.</param>
    public NeedTable(NeedProfile profile, NeedMatchRule rule, int qualityCount)
    {
        points = new int[qualityCount * 4];
        for (var rating = 1; rating <= 3; rating++)
        {
            var perUnit = rule.FitByRating[rating] * rule.MaxPoints * 1000 / NeedProfile.WeightUnits;
            foreach (var need in profile.Needs)
            {
                points[(need.Position * 4) + rating] = (int)decimal.Round(need.WeightUnits * perUnit, MidpointRounding.AwayFromZero);
            }
        }
    }

    /// <summary>Thousandths of a point, before the n-th share.</summary>
    public int At(int quality, int rating) => points[(quality * 4) + rating];

    /// <summary>
    /// The quality an exercise would be chosen for: the one that brings most points; equal ones by the vocabulary's order.
    /// Where none of its qualities is needed, its highest rated.
    /// </summary>
    public int PurposeOf(ExerciseCatalogue catalogue, int position)
    {
        var best = -1;
        var bestPoints = -1;
        foreach (var column in catalogue.RatingsOf(position))
        {
            var value = (At(column.Quality, column.Rating) * 4) + column.Rating;
            if (value > bestPoints)
            {
                (best, bestPoints) = (column.Quality, value);
            }
        }

        return best;
    }
}
