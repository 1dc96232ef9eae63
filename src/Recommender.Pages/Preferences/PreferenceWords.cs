using Recommender.Answers.Learned;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Words;

namespace Recommender.Pages.Preferences;

/// <summary>Learned numbers and their report in words.</summary>
public static class PreferenceWords
{
    /// <summary>Every number, one a line; those at nothing too, so that none is missed.</summary>
    public static IEnumerable<string> Of(PreferenceNumbers numbers, ExerciseCatalogue catalogue)
    {
        foreach (var (id, share) in numbers.Factors)
        {
            var label = Say.Label(catalogue.Vocabulary.Factors, id);
            yield return share == 0 ? $"{label} counts as it does." : $"{label} counts {(share > 0 ? "more" : "less")} by {Say.Percent(Math.Abs(share))}.";
        }

        foreach (var (family, points) in numbers.Families.OrderByDescending(f => Math.Abs(f.Value)).ThenBy(f => f.Key, StringComparer.Ordinal))
        {
            var names = catalogue.Exercises.Where(e => e.Family == family).Select(e => e.Name).ToList();
            var forms = names.Count == 0 ? "none of it is in the catalogue now" : string.Join(", ", names.Take(3)) + (names.Count > 3 ? $" and {names.Count - 3} more" : "");
            yield return $"{(points > 0 ? "For" : "Against")} {family.Replace('-', ' ')} ({forms}): {Say.Number(Math.Abs(points))} points.";
        }
    }

    /// <summary>What it gains and costs.</summary>
    public static IEnumerable<string> Of(PreferenceReport report)
    {
        var against = report.ComparedWith == "none" ? "without" : "with what all coaches share";
        if (report.PairAccuracy is { } pairs)
        {
            yield return $"Of later pairs {Say.Percent(pairs.With)} have what was taken above what was left, {Say.Percent(pairs.Without)} {against}; the difference lies between {Signed(pairs.Low)} and {Signed(pairs.High)} points of a hundred.";
        }

        if (report.Ndcg is { } order)
        {
            yield return $"Quality of the order over the first {report.Top} places {Say.Number(decimal.Round(order.With, 3))}, {Say.Number(decimal.Round(order.Without, 3))} {against}; the difference lies between {Signed(order.Low)} and {Signed(order.High)} hundredths.";
        }

        if (report.Cost is { } cost)
        {
            yield return $"Of {cost.Answers} later answers {Say.Percent(cost.FirstPlacesChanged)} get another first pick, and {Say.Percent(cost.PicksChanged)} of the picks are others.";
            yield return $"Needs covered: {Signed(cost.NeedCoverage)} points of a hundred. Load on tissue: {Signed(cost.TissueLoad)} %. A pick is moved by {Say.Number(decimal.Round(cost.MeanLean, 2))} points on average.";
        }

        yield return $"Taught by {report.Trained.Decisions} decisions ({report.Trained.Pairs} pairs), tested on {report.Tested.Decisions} later ones ({report.Tested.Pairs} pairs).";
    }

    private static string Signed(decimal share) => share switch { > 0 => "+", < 0 => "-", _ => "" } + Say.Number(Math.Abs(decimal.Round(share * 100, 1)));
}
