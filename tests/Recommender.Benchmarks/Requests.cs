using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;

namespace Recommender.Benchmarks;

/// <summary>What is asked in every part: one request for each athlete of the demo squad, so that no single easy case sets the number.</summary>
internal static class Requests
{
    /// <summary>The data folder beside the program.</summary>
    public static string DataFolder => Path.Combine(AppContext.BaseDirectory, "data");

    /// <summary>The shipped knowledge.</summary>
    public static Edition ShippedEdition() => KnowledgeReader.Read(DataFolder);

    /// <param name="count">Picks wanted; null leaves it to the rules.</param>
    public static IReadOnlyList<RecommendationRequest> OfTheSquad(int? count = null)
    {
        var squad = JsonSerializer.Deserialize(Trimmed(File.ReadAllText(Path.Combine(DataFolder, "demo", "squad.json"))), WireJson.Default.Squad)!;
        return [.. squad.Athletes.Select(a => new RecommendationRequest
        {
            Athlete = a.Athlete with { Ref = a.Ref },
            Phase = a.Phase ?? "general-preparation",
            WeeksToCompetition = a.WeeksToCompetition,
            Setting = a.Setting,
            Complaints = a.Complaints,
            Needs = a.Needs,
            Count = count,
        })];
    }

    /// <summary>The same requests as they travel.</summary>
    public static IReadOnlyList<byte[]> Bodies() => [.. OfTheSquad().Select(r => JsonSerializer.SerializeToUtf8Bytes(r, WireJson.Compact.RecommendationRequest))];

    private static string Trimmed(string json)
    {
        var node = System.Text.Json.Nodes.JsonNode.Parse(json)!.AsObject();
        node.Remove("$schema");
        return node.ToJsonString();
    }
}
