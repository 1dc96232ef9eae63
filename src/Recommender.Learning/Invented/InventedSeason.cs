using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Wire;
using Recommender.Domain.Requests;

namespace Recommender.Learning.Invented;

/// <summary>What a coach of the demo squad would ask in the course of a season. The same seed gives the same season.</summary>
public static class InventedSeason
{
    /// <summary>As the rules take it; see <see cref="InventedCoach"/>.</summary>
    private const double LookedAt = 0.5;

    private static readonly string[] Phases = ["general-preparation", "specific-preparation", "pre-competition", "competition"];

    /// <summary>Three coaches of the demo club: one of hinges, one of little set-up, one of single-leg work.</summary>
    public static IReadOnlyList<InventedCoach> Coaches { get; } =
    [
        new("HC-1", e => e.Pattern == "hinge" ? 6 : 0, new Dictionary<string, decimal>(), 1.5, LookedAt),
        new("HC-2", _ => 0, new Dictionary<string, decimal> { ["set-up-cost"] = 4 }, 1.5, LookedAt),
        new("HC-3", e => e.Support == Domain.Catalogue.Support.Single ? 5 : 0, new Dictionary<string, decimal> { ["need-match"] = -0.2m }, 1.5, LookedAt),
    ];

    /// <summary>Requests, one after another.</summary>
    /// <param name="dataFolder">The data folder, for the squad.</param>
    /// <param name="coach">Who asks.</param>
    /// <param name="count">How many.</param>
    /// <param name="seed">Seed.</param>
    public static IEnumerable<RecommendationRequest> Requests(string dataFolder, string? coach, int count, int seed)
    {
        var file = JsonNode.Parse(File.ReadAllText(Path.Combine(dataFolder, "demo", "squad.json")))!.AsObject();
        file.Remove("$schema");
        var squad = file.Deserialize(WireJson.Default.Squad)!.Athletes;
        var random = new Random(seed);
        for (var i = 0; i < count; i++)
        {
            var athlete = squad[random.Next(squad.Count)];
            yield return new RecommendationRequest
            {
                Athlete = athlete.Athlete with { Ref = athlete.Ref },
                Coach = coach,
                Phase = Phases[Math.Min(Phases.Length - 1, Phases.Length * i / count)],
                Setting = random.Next(3) == 0 ? null : athlete.Setting,
                Complaints = random.Next(2) == 0 ? null : athlete.Complaints,
                Needs = athlete.Needs,
                Count = 6,
            };
        }
    }
}
