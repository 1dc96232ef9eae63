using System.Globalization;
using Recommender.Answers;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Answers;

/// <summary>
/// Changes of a request for looking at what they would do. Pain goes up, never down: nobody should be taught to under-report. Nothing of it is recorded.
/// </summary>
/// <param name="PainUp">Points added to the pain of every complaint, 0 to 10.</param>
/// <param name="Place">Another place with its usual equipment, or null.</param>
/// <param name="Without">Equipment taken away.</param>
/// <param name="WeeksOn">Weeks later, 0 to 60.</param>
public sealed record WhatIf(int PainUp, string? Place, IReadOnlyList<string> Without, int WeeksOn)
{
    /// <summary>No change.</summary>
    public static WhatIf Nothing { get; } = new(0, null, [], 0);

    /// <summary>Whether anything is changed.</summary>
    public bool Any => this is not { PainUp: 0, Place: null, Without.Count: 0, WeeksOn: 0 };

    /// <summary>As a query, with its question mark.</summary>
    public string Query
    {
        get
        {
            var parts = new List<string>();
            if (PainUp > 0)
            {
                parts.Add($"painUp={PainUp}");
            }

            if (Place is not null)
            {
                parts.Add($"place={Uri.EscapeDataString(Place)}");
            }

            parts.AddRange(Without.Select(w => $"without={Uri.EscapeDataString(w)}"));
            if (WeeksOn > 0)
            {
                parts.Add($"weeksOn={WeeksOn}");
            }

            return parts.Count == 0 ? "" : "?" + string.Join('&', parts);
        }
    }

    /// <summary>Reads a query; what does not fit is left out.</summary>
    public static WhatIf Of(string? painUp, string? place, IEnumerable<string?> without, string? weeksOn, Vocabulary words) => new(
        Whole(painUp, 10),
        place is not null && words.Places.Has(place) ? place : null,
        [.. without.OfType<string>().Where(words.Equipment.Has).Distinct(StringComparer.Ordinal).Take(64)],
        Whole(weeksOn, 60));

    /// <summary>What is changed, in words.</summary>
    public IEnumerable<string> Said(Vocabulary words)
    {
        if (PainUp > 0)
        {
            yield return $"pain {PainUp} higher";
        }

        if (Place is not null)
        {
            yield return $"{words.Places.InSentence(Place)}, its usual equipment";
        }

        foreach (var thing in Without)
        {
            yield return $"no {words.Equipment.InSentence(thing)}";
        }

        if (WeeksOn > 0)
        {
            yield return WeeksOn == 1 ? "a week later" : $"{WeeksOn} weeks later";
        }
    }

    /// <summary>The changed request.</summary>
    public RecommendationRequest Apply(RecommendationRequest request, Edition edition)
    {
        if (PainUp > 0)
        {
            request = request with { Complaints = [.. (request.Complaints ?? []).Select(c => c with { Pain = Math.Min(10, c.Pain!.Value + PainUp) })] };
        }

        if (Place is not null)
        {
            request = request with { Setting = (request.Setting ?? new SettingFacts()) with { Place = Place, Equipment = null, Kit = null } };
        }

        if (Without.Count > 0)
        {
            var place = edition.Catalogue.Vocabulary.Places.Find(request.Setting?.Place ?? edition.Knowledge.Defaults.Place)!;
            var equipment = request.Setting?.Equipment ?? place.Equipment;
            request = request with { Setting = (request.Setting ?? new SettingFacts()) with { Equipment = [.. equipment.Except(Without, StringComparer.Ordinal)] } };
        }

        return WeeksOn > 0 ? Later(request, edition) : request;
    }

    /// <summary>The same request later: the competition nearer, what began, was done, tested and cleared longer ago. Work and ratings of these days are past.</summary>
    private RecommendationRequest Later(RecommendationRequest request, Edition edition)
    {
        var days = WeeksOn * 7;
        return request with
        {
            WeeksToCompetition = request.Competitions is { Count: > 0 } ? null : Math.Max(0, Situation.Of(request, edition).WeeksToCompetition - WeeksOn),
            Competitions = request.Competitions.Later(days),
            Athlete = request.Athlete!.Later(days),
            Complaints = request.Complaints.Later(days),
            Tests = request.Tests.Later(days),
            Recent = request.Recent is { } recent ? [.. recent.Where(r => r.DaysAgo + days <= 365).Select(r => r with { DaysAgo = r.DaysAgo + days })] : null,
            Training = null,
            SessionRatings = null,
        };
    }

    private static int Whole(string? text, int most) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? Math.Min(most, number) : 0;
}
