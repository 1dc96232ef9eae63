using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Testing;

namespace Recommender.Domain.Tests.Golden;

/// <summary>A scenario's approved answer, and when it may be approved anew. See README.md beside this file.</summary>
internal static class GoldenFile
{
    private static readonly JsonSerializerOptions Pretty = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly Lazy<Edition> Read = new(() => KnowledgeReader.Read(Path.Combine(Folder, "data")));

    /// <summary>The folder with scenarios, approved answers and frozen data.</summary>
    public static string Folder => Path.Combine(TestEdition.Top, "tests", "Recommender.Domain.Tests", "Golden");

    /// <summary>The frozen edition: it stays as it is while the data folder moves on.</summary>
    public static Edition Frozen => Read.Value;

    /// <summary>Names of the scenarios, ordinal.</summary>
    public static IReadOnlyList<string> Scenarios =>
        [.. Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileName(f)!).Where(f => !f.EndsWith(".verified.json", StringComparison.Ordinal)).Select(f => f[..^".json".Length]).Order(StringComparer.Ordinal)];

    /// <summary>A scenario's request.</summary>
    public static RecommendationRequest Request(string scenario) =>
        RequestReader.Read<RecommendationRequest>(File.ReadAllBytes(Path.Combine(Folder, scenario + ".json")), out var fault) ?? throw new InvalidDataException($"{scenario}: {fault}");

    /// <summary>Where a scenario's approved answer stands.</summary>
    public static string Verified(string scenario) => Path.Combine(Folder, scenario + ".verified.json");

    /// <summary>The answer as it is approved: indented, without the id of a decision.</summary>
    public static string Text(Answer answer) => JsonNode.Parse(JsonSerializer.SerializeToUtf8Bytes(answer with { DecisionId = "" }, WireJson.Default.Answer))!.ToJsonString(Pretty) + "\n";

    /// <summary>What to make of an answer beside the approved one.</summary>
    /// <param name="verified">The approved answer; null when there is none.</param>
    /// <param name="actual">The answer of today.</param>
    /// <param name="approving">Whether a person has said that it should be approved.</param>
    public static Judgement Judge(string? verified, string actual, bool approving)
    {
        if (verified == actual)
        {
            return new(false, null);
        }

        var mayApprove = verified is null || Stamp(verified) != Stamp(actual);
        return mayApprove && approving ? new(true, null)
            : verified is null ? new(false, "no answer is approved yet: read what it would be, then approve with RECOMMENDER_APPROVE=1.")
            : mayApprove ? new(false, "engine number or frozen data changed: read the difference, then approve with RECOMMENDER_APPROVE=1.")
            : new(false, "arithmetic changed: raise RecommendationPipeline.Engine, then approve with RECOMMENDER_APPROVE=1.");
    }

    private static (int Engine, string Catalogue, string Rules) Stamp(string answer)
    {
        var versions = JsonNode.Parse(answer)!["versions"]!;
        return ((int)versions["engine"]!, (string)versions["catalogue"]!, (string)versions["rules"]!);
    }

    /// <param name="Write">Whether the approved file is to be written.</param>
    /// <param name="Fails">Why the test fails, or null.</param>
    internal sealed record Judgement(bool Write, string? Fails);
}
