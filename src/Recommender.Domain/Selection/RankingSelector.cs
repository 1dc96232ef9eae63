using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Selection;

/// <summary>Takes picks from a ranking: one a family, spread over movement patterns and over what they are for, nothing that serves no need.</summary>
public static class RankingSelector
{
    /// <summary>Chooses ranks.</summary>
    /// <param name="ranking">Eligible exercises by score.</param>
    /// <param name="catalogue">Gives family and pattern.</param>
    /// <param name="needs">Gives what an exercise is for.</param>
    /// <param name="rules">Spread and the least need match worth a pick.</param>
    /// <param name="count">How many are wanted, at least 1.</param>
    /// <returns>Ranks, ascending; fewer than <paramref name="count"/> when no more families serve a need.</returns>
    /// <remarks>The spread only puts off: what it held back fills up when nothing else is left. So a longer list never lacks an eligible family.</remarks>
    public static IReadOnlyList<int> Pick(Ranking ranking, ExerciseCatalogue catalogue, NeedTable needs, ScoringRules rules, int count)
    {
        var least = Points.Of(rules.NeedMatch.MinPoints).Thousandths;
        var perPattern = (int)decimal.Ceiling(count * rules.Spread.PatternShare);
        var perPurpose = (int)decimal.Ceiling(count * rules.Spread.PurposeShare);
        var families = new HashSet<int>();
        var purposes = new int[catalogue.Vocabulary.Qualities.Count];
        var patterns = new int[catalogue.Vocabulary.Patterns.Count];
        var picks = new List<int>(count);
        var heldBack = new List<int>();
        for (var rank = 0; rank < ranking.Count && picks.Count < count; rank++)
        {
            var position = ranking.Positions[rank];
            if (ranking.NeedPoints[rank] < least || families.Contains(catalogue.Families[position]))
            {
                continue;
            }

            var purpose = needs.PurposeOf(catalogue, position);
            if (patterns[catalogue.Patterns[position]] >= perPattern || purposes[purpose] >= perPurpose)
            {
                heldBack.Add(rank);
                continue;
            }

            patterns[catalogue.Patterns[position]]++;
            purposes[purpose]++;
            families.Add(catalogue.Families[position]);
            picks.Add(rank);
        }

        foreach (var rank in heldBack)
        {
            if (picks.Count < count && families.Add(catalogue.Families[ranking.Positions[rank]]))
            {
                picks.Add(rank);
            }
        }

        picks.Sort();
        return picks;
    }
}
