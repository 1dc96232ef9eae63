using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Eligibility;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Needs;
using Recommender.Domain.Requests;
using Recommender.Domain.Scoring;

namespace Recommender.Domain.Explanations;

/// <summary>Plain English made from contributions, limits and rules. It words; it never recomputes.</summary>
public static class Phrasebook
{
    private const int MostServed = 2;

    /// <summary>Shown with every answer.</summary>
    public const string NotMedicalAdvice =
        "Training guidance, not medical advice: pain, injury and illness belong before a licensed practitioner, and local and federation rules come first.";

    /// <summary>Why a pick is here.</summary>
    /// <param name="situation">The situation.</param>
    /// <param name="profile">What is needed.</param>
    /// <param name="limits">Limits in force.</param>
    /// <param name="exercise">The pick.</param>
    /// <param name="contributions">Its contributions, need match first.</param>
    public static IReadOnlyList<string> Why(Situation situation, NeedProfile profile, TissueLimits limits, Exercise exercise, IReadOnlyList<Contribution> contributions)
    {
        var lines = new List<string>(4);
        var vocabulary = situation.Catalogue.Vocabulary;
        var serves = contributions[0].Details;
        for (var i = 0; i < serves.Count && i < MostServed; i++)
        {
            var detail = serves[i];
            var id = detail.Code["need:".Length..];
            var need = NeedFor(profile, id);
            var from = need.From.MaxBy(f => f.Share)!;
            lines.Add($"{Grade((int)detail.Value!.Value)} {vocabulary.Qualities.InSentence(id)}, {need.Weight * 100:0.#} % of what is needed ({from.Note}).");
        }

        var sore = SoreLine(situation, limits, exercise, out var told);
        if (sore is not null)
        {
            lines.Add(sore);
        }

        foreach (var rule in situation.Protective)
        {
            if (rule.Exercises.Contains(exercise.Id, StringComparer.Ordinal))
            {
                lines.Add(rule.Note);
            }
        }

        var cost = contributions[1];
        for (var c = 2; c < contributions.Count - 1; c++)
        {
            cost = contributions[c].Points < cost.Points ? contributions[c] : cost;
        }

        if (cost.Points.Thousandths < 0 && Against(situation, cost, told) is { } against)
        {
            lines.Add(against);
        }

        if (situation.Preference is { } preference && contributions[^1].Points.Thousandths is var lean and not 0)
        {
            var (whose, choices) = (preference.Numbers.Scope == PreferenceScope.Coach ? "this coach's" : "the staff's", preference.Numbers.Choices);
            lines.Add($"Leans {(lean > 0 ? "to" : "away from it by")} {whose} choices: {lean / 1000m:+0.###;-0.###} points, from {choices} {(choices == 1 ? "choice" : "choices")}.");
        }

        return lines;
    }

    /// <summary>What takes most from a pick, as a coach would say it; null where it takes too little to be worth a word, or is load on a region whose load is told already.</summary>
    private static string? Against(Situation situation, Contribution cost, string? told)
    {
        var rule = situation.Knowledge.Scoring.Against;
        if (rule is null)
        {
            return $"Against it: {cost.Label.ToLowerInvariant()} {cost.Points} points.";
        }

        if (-cost.Points.Thousandths < Points.Of(rule.FromPoints).Thousandths)
        {
            return null;
        }

        var most = cost.Details[0];
        for (var i = 1; i < cost.Details.Count; i++)
        {
            most = cost.Details[i].Points < most.Points ? cost.Details[i] : most;
        }

        if (rule.TextOf(cost.Factor, most.Code) is not { } text)
        {
            return $"Against it: {char.ToLowerInvariant(most.Label[0])}{most.Label[1..]}.";
        }

        var colon = most.Code.IndexOf(':', StringComparison.Ordinal);
        var region = colon < 0 ? null : most.Code[(colon + 1)..];
        return region is not null && region == told ? null : text
            .Replace("{region}", region is null ? null : situation.Catalogue.Vocabulary.Regions.InSentence(region), StringComparison.Ordinal)
            .Replace("{value}", most.Value?.ToString("0.#", CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    private static Need NeedFor(NeedProfile profile, string quality)
    {
        foreach (var need in profile.Needs)
        {
            if (need.Quality == quality)
            {
                return need;
            }
        }

        throw new ArgumentException($"{quality} is not needed, yet brought points.", nameof(quality));
    }

    /// <summary>What to mind with a pick.</summary>
    public static IReadOnlyList<string> Cautions(Situation situation, TissueLimits limits, Exercise exercise)
    {
        var lines = new List<string>(exercise.Cautions);
        foreach (var (position, _) in limits.Rows)
        {
            var regions = situation.Catalogue.Vocabulary.Regions;
            if (ExerciseCatalogue.LoadOn(exercise, regions[position]) is { Value: > 1 })
            {
                lines.Add($"Loads the sore {regions.InSentence(position)}: stop when pain rises above today's or is worse next morning.");
            }
        }

        return lines;
    }

    private static string Grade(int rating) => rating switch
    {
        3 => "First choice for",
        2 => "Strong for",
        _ => "Adds to",
    };

    /// <param name="situation">The situation.</param>
    /// <param name="limits">Limits of the day.</param>
    /// <param name="exercise">The exercise.</param>
    /// <param name="told">Id of the region whose load it tells; null where it tells none.</param>
    private static string? SoreLine(Situation situation, TissueLimits limits, Exercise exercise, out string? told)
    {
        told = null;
        Limit? sore = null;
        TissueLoad? load = null;
        foreach (var limit in limits.Limits)
        {
            if (limit.LoadingRate == exercise.LoadingRate)
            {
                var own = ExerciseCatalogue.LoadOn(exercise, situation.Catalogue.Vocabulary.Regions.Find(limit.Region)!);
                if (sore is null || (own?.High ?? 0) > (load?.High ?? 0))
                {
                    (sore, load) = (limit, own);
                }
            }
        }

        if (sore is null)
        {
            return null;
        }

        var region = situation.Catalogue.Vocabulary.Regions.InSentence(sore.Region);
        var speed = Speed(exercise.LoadingRate);
        told = load is null ? null : sore.Region;
        return load is null
            ? $"Does not load the {(limits.Rows.Any(r => r.Region == situation.Catalogue.Vocabulary.Regions.IndexOf(sore.Region)) ? "sore" : "restricted")} {region}."
            : $"Loads the {region} {load.Value:0.##} of 10, {load.High:0.##} at the upper estimate; {(sore.MaxTissueLoad >= 10 ? $"today {speed} work is not limited for it." : $"today's limit for {speed} work is {sore.MaxTissueLoad:0.##}.")}";
    }

    private static string Speed(LoadingRate rate) => rate switch
    {
        LoadingRate.Isometric => "isometric",
        LoadingRate.Slow => "slow",
        LoadingRate.Fast => "fast",
        _ => "impact",
    };
}
