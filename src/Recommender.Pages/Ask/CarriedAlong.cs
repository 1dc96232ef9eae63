using System.Globalization;
using Recommender.Domain.Catalogue;
using Recommender.Domain.Requests;

namespace Recommender.Pages.Ask;

/// <summary>Says what of a profile or an earlier request goes along though the form does not show it.</summary>
public static class CarriedAlong
{
    /// <summary>One line for each such part; empty without a basis.</summary>
    public static IReadOnlyList<string> Of(RecommendationRequest? basis, Vocabulary words)
    {
        if (basis is null)
        {
            return [];
        }

        var athlete = basis.Athlete ?? new AthleteFacts();
        var lines = new List<string>();
        lines.AddRange((athlete.Restrictions ?? []).Select(r => $"A clinician's restriction on the {Region(r.Region)}{(r.ReviewInDays is < 0 ? ", its review overdue" : "")}."));
        lines.AddRange((athlete.Clearances ?? []).Select(c => $"A clearance: {words.RedFlags.Find(c.Flag ?? "")?.Label.ToLowerInvariant() ?? c.Flag}, {c.DaysAgo} days ago."));
        lines.AddRange((athlete.History ?? []).Select(h => $"Earlier injury: {Region(h.Region)}, {h.MonthsAgo} months ago{(h.Surgery == true ? ", operated on" : "")}."));
        Add(athlete.Layoff is { } off, () => $"{athlete.Layoff!.Weeks?.ToString("0.#", CultureInfo.InvariantCulture)} weeks off training.");
        Add(athlete.GrowthSpurt == true, () => "In a growth spurt.");
        Add(athlete.Limitations is { Count: > 0 }, () => $"Lasting limitations: {string.Join(", ", athlete.Limitations!)}.");
        Add(basis.Competitions is { Count: > 0 }, () => $"Competitions in {string.Join(", ", basis.Competitions!.Select(c => c.DaysToStart))} days; weeks typed above take their place.");
        Add(basis.Training is { Count: > 0 }, () => $"{basis.Training!.Count} entries of the week's other training.");
        Add(basis.Recent is { Count: > 0 }, () => $"{basis.Recent!.Count} exercises done lately.");
        Add(basis.Tests is not null, () => "Test results.");
        Add(basis.SessionRatings is { Count: > 0 }, () => $"{basis.SessionRatings!.Count} session ratings.");
        Add(basis.Exclude is { Count: > 0 }, () => $"Exercises not wanted: {string.Join(", ", basis.Exclude!)}.");
        Add(basis.Setting?.Kit is not null, () => "The weights that are really there.");
        return lines;

        string Region(string? id) => words.Regions.Find(id ?? "")?.Label.ToLowerInvariant() ?? id ?? "";

        void Add(bool there, Func<string> line)
        {
            if (there)
            {
                lines.Add(line());
            }
        }
    }
}
