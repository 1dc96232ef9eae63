using System.Text;
using System.Text.Json.Nodes;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>The generator on what a running service serves, with a few decisions and a draft of each kind to ask about.</summary>
public static class Preparation
{
    /// <summary>Prepares a service.</summary>
    public static async Task<(CaseMaker Maker, Judge Judge)> Of(HttpClient client)
    {
        var text = await client.GetStringAsync("/openapi/v1.json");
        var document = new ApiDocument(text);
        var examples = new Dictionary<string, JsonNode[]>(StringComparer.Ordinal);
        foreach (var operation in JsonNode.Parse(text)!["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()).Select(m => m.Value!))
        {
            if (operation["requestBody"]?["content"]?["application/json"]?["examples"] is JsonObject shown)
            {
                examples[(string)operation["operationId"]!] = [.. shown.Select(s => s.Value!["value"]!)];
            }
        }

        return (new CaseMaker(document, await Ids(client, examples), examples), new Judge(document));
    }

    /// <summary>Posts a body that must be taken.</summary>
    public static async Task<JsonObject> Post(HttpClient client, string path, string body)
    {
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using var answer = await client.PostAsync(path, content);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private static async Task<Dictionary<string, string[]>> Ids(HttpClient client, Dictionary<string, JsonNode[]> examples)
    {
        var words = JsonNode.Parse(await client.GetStringAsync("/v1/vocabulary"))!.AsObject();
        var ids = words.ToDictionary(w => w.Key, w => w.Value!.AsArray().Select(t => (string)t!["id"]!).ToArray(), StringComparer.Ordinal);
        ids["limits"] = ids["settingLimits"];
        ids["competence"] = ids["competences"];
        ids["exercise"] = [.. JsonNode.Parse(await client.GetStringAsync("/v1/exercises?limit=100"))!["items"]!.AsArray().Select(e => (string)e!["id"]!)];
        ids["first"] = ids["second"] = ids["locked"] = ids["avoid"] = ids["exclude"] = ids["exercise"];
        ids["ref"] = ids["athlete"] = [.. JsonNode.Parse(await client.GetStringAsync("/v1/athletes"))!["items"]!.AsArray().Select(a => (string)a!["ref"]!), "nobody"];
        ids["from"] = ids["to"] = ["2026-03-01", "2027-03-01T18:00:00Z"];
        ids["kind"] = ["acceleration", "max-velocity", "speed-endurance", "tempo", "throws", "gym", "competition", "testing"];
        ids["flag"] = ["recent-surgery"];
        ids["provokedBy"] = ["deep-knee-bend", "landing", "fast-running", "rotation", "overhead"];
        var decisions = new List<string>();
        foreach (var (operation, path) in new[] { ("recommend", "/v1/recommendations"), ("substitute", "/v1/substitutions"), ("composeSession", "/v1/sessions") })
        {
            foreach (var body in examples[operation])
            {
                decisions.Add((string)(await Post(client, path, body.ToJsonString()))["decisionId"]!);
            }
        }

        ids["decisionId"] = ids["previousDecision"] = [.. decisions];
        var versions = new List<string> { "current" };
        foreach (var (operation, path) in new[] { ("draftCatalogue", "/v1/catalogue/versions"), ("draftRules", "/v1/rules/versions") })
        {
            var body = examples[operation][0].DeepClone();
            body["dryRun"] = false;
            versions.Add((string)(await Post(client, path, body.ToJsonString()))["version"]!);
            versions.AddRange(JsonNode.Parse(await client.GetStringAsync(path))!["items"]!.AsArray().Select(v => (string)v!["version"]!));
        }

        ids["version"] = ids["other"] = ids["basedOn"] = [.. versions.Distinct()];
        return ids;
    }
}
