using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;

namespace Recommender.Domain.Substitutions;

/// <summary>What a substitute keeps, loses and gains, in the trade's words and numbers.</summary>
/// <param name="situation">The situation.</param>
/// <param name="profile">What is needed.</param>
/// <param name="limits">Limits of the complaints.</param>
/// <param name="replaced">The replaced exercise.</param>
internal sealed class Comparison(Situation situation, NeedProfile profile, TissueLimits limits, Traits replaced)
{
    private readonly Vocabulary words = situation.Catalogue.Vocabulary;

    /// <summary>The lists for one substitute.</summary>
    public (List<string> Keeps, List<string> Loses, List<string> Gains) With(Traits other, Exercise exercise)
    {
        var (keeps, loses, gains) = (new List<string>(), new List<string>(), new List<string>());
        foreach (var q in Enumerable.Range(0, words.Qualities.Count).Where(q => replaced.Ratings[q] > 0 || other.Ratings[q] > 0).OrderByDescending(Weight).ThenBy(q => q))
        {
            var (was, now) = (replaced.Ratings[q], other.Ratings[q]);
            var name = words.Qualities[q].Label;
            var units = Weight(q);
            var need = units > 0 ? $", {units / 100m:0.#} % of what is needed" : "";
            if (now < was && (was >= QualityRating.Strong || units > 0))
            {
                loses.Add($"{name}: {was} to {now} of 3{need}");
            }
            else if (now > was && (now >= QualityRating.Strong || units > 0))
            {
                gains.Add($"{name}: {was} to {now} of 3{need}");
            }
            else if (now == was && was >= QualityRating.Strong)
            {
                keeps.Add($"{name}: {was} of 3{need}");
            }
        }

        Word("Movement", words.Patterns, replaced.Pattern, other.Pattern);
        Word("Support", words.Supports, replaced.Support, other.Support);
        Step("Speed of force", words.LoadingRates, replaced.LoadingRate, other.LoadingRate);
        Step("Load", words.LoadBands, replaced.LoadBand, other.LoadBand);
        if (replaced.Id is { } id)
        {
            foreach (var (region, _) in limits.Rows)
            {
                var was = ExerciseCatalogue.LoadOn(situation.Catalogue.Find(id)!, words.Regions[region])?.Value ?? 0;
                var now = ExerciseCatalogue.LoadOn(exercise, words.Regions[region])?.Value ?? 0;
                if (was != now)
                {
                    (now < was ? gains : loses).Add($"Load on the {words.Regions.InSentence(region)}: {was:0.##} to {now:0.##} of 10");
                }
            }
        }

        return (keeps, loses, gains);

        void Word<T>(string what, Terms<T> terms, int was, int now) where T : Term
        {
            if (was == now)
            {
                keeps.Add($"{what}: {terms.InSentence(was)}");
            }
        }

        void Step<T>(string what, Terms<T> terms, int was, int now) where T : Term
        {
            if (was < 0 || was == now)
            {
                return;
            }

            (now < was ? loses : gains).Add($"{what}: {terms.InSentence(was)} to {terms.InSentence(now)}");
        }
    }

    /// <summary>Whether what is lost matters before the competition: a sentence, or null when nothing needed is lost.</summary>
    public string? Matters(Traits other)
    {
        var lost = profile.Needs.Where(n => other.Ratings[n.Position] < replaced.Ratings[n.Position]).OrderByDescending(n => n.WeightUnits).FirstOrDefault();
        var residual = lost is null ? null : situation.Knowledge.Substitution.Residuals.FirstOrDefault(r => r.Qualities.Contains(lost.Quality, StringComparer.Ordinal));
        if (lost is null || residual is null)
        {
            return null;
        }

        var days = (int)decimal.Round(situation.WeeksToCompetition * 7);
        var name = words.Qualities.InSentence(lost.Quality);
        return days <= residual.Days
            ? $"Losing some {name} today costs little: it lasts about {residual.Days} days, and the competition is {days} days off."
            : $"Without work on it {name} lasts about {residual.Days} days, and the competition is {days} days off: train it again before then.";
    }

    private int Weight(int quality)
    {
        foreach (var need in profile.Needs)
        {
            if (need.Position == quality)
            {
                return need.WeightUnits;
            }
        }

        return 0;
    }
}
