using System.Collections.Concurrent;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>The real service on a real loopback socket, with a store of its own and everything that it logs kept.</summary>
public sealed class FuzzHost : WebApplicationFactory<Program>
{
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-fuzz-").FullName;

    public FuzzHost()
    {
        UseKestrel(0);
        StartServer();
        Client = new HttpClient(new SocketsHttpHandler { RequestHeaderEncodingSelector = (_, _) => Encoding.UTF8, AllowAutoRedirect = false, UseCookies = false, MaxConnectionsPerServer = 16 })
        {
            BaseAddress = ClientOptions.BaseAddress,
            Timeout = TimeSpan.FromSeconds(100),
        };
    }

    /// <summary>A client that sends nothing of its own accord.</summary>
    public HttpClient Client { get; }

    /// <summary>What was logged.</summary>
    public ConcurrentQueue<(LogLevel Level, string Text)> Logged { get; } = new();

    /// <summary>Folder of the store.</summary>
    public string Folder => folder;

    /// <summary>The generator on what this service serves, with a few decisions and a draft of each kind to ask about.</summary>
    public async Task<(CaseMaker Maker, Judge Judge)> Generator()
    {
        var text = await Client.GetStringAsync("/openapi/v1.json");
        var document = new ApiDocument(text);
        var examples = new Dictionary<string, JsonNode[]>(StringComparer.Ordinal);
        foreach (var operation in JsonNode.Parse(text)!["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()).Select(m => m.Value!))
        {
            if (operation["requestBody"]?["content"]?["application/json"]?["examples"] is JsonObject shown)
            {
                examples[(string)operation["operationId"]!] = [.. shown.Select(s => s.Value!["value"]!)];
            }
        }

        return (new CaseMaker(document, await Ids(examples), examples), new Judge(document));
    }

    /// <summary>Posts a body that must be taken.</summary>
    public async Task<JsonObject> Post(string path, string body)
    {
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using var answer = await Client.PostAsync(path, content);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseSetting("Storage:Path", folder);
        builder.ConfigureLogging(logging => logging.AddProvider(new Keeper(Logged)));
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (disposing && Directory.Exists(folder))
        {
            Client.Dispose();
            SqliteConnection.ClearAllPools();
            Directory.Delete(folder, recursive: true);
        }
    }

    private async Task<Dictionary<string, string[]>> Ids(Dictionary<string, JsonNode[]> examples)
    {
        var words = JsonNode.Parse(await Client.GetStringAsync("/v1/vocabulary"))!.AsObject();
        var ids = words.ToDictionary(w => w.Key, w => w.Value!.AsArray().Select(t => (string)t!["id"]!).ToArray(), StringComparer.Ordinal);
        ids["limits"] = ids["settingLimits"];
        ids["competence"] = ids["competences"];
        ids["exercise"] = [.. JsonNode.Parse(await Client.GetStringAsync("/v1/exercises?limit=100"))!["items"]!.AsArray().Select(e => (string)e!["id"]!)];
        ids["first"] = ids["second"] = ids["locked"] = ids["avoid"] = ids["exclude"] = ids["exercise"];
        ids["ref"] = ids["athlete"] = [.. JsonNode.Parse(await Client.GetStringAsync("/v1/athletes"))!["items"]!.AsArray().Select(a => (string)a!["ref"]!), "nobody"];
        ids["from"] = ids["to"] = ["2026-03-01", "2027-03-01T18:00:00Z"];
        ids["kind"] = ["acceleration", "max-velocity", "speed-endurance", "tempo", "throws", "gym", "competition", "testing"];
        ids["flag"] = ["recent-surgery"];
        ids["provokedBy"] = ["deep-knee-bend", "landing", "fast-running", "rotation", "overhead"];
        var decisions = new List<string>();
        foreach (var (operation, path) in new[] { ("recommend", "/v1/recommendations"), ("substitute", "/v1/substitutions"), ("composeSession", "/v1/sessions") })
        {
            foreach (var body in examples[operation])
            {
                decisions.Add((string)(await Post(path, body.ToJsonString()))["decisionId"]!);
            }
        }

        ids["decisionId"] = ids["previousDecision"] = [.. decisions];
        var versions = new List<string> { "current" };
        foreach (var (operation, path) in new[] { ("draftCatalogue", "/v1/catalogue/versions"), ("draftRules", "/v1/rules/versions") })
        {
            var body = examples[operation][0].DeepClone();
            body["dryRun"] = false;
            versions.Add((string)(await Post(path, body.ToJsonString()))["version"]!);
            versions.AddRange(JsonNode.Parse(await Client.GetStringAsync(path))!["items"]!.AsArray().Select(v => (string)v!["version"]!));
        }

        ids["version"] = ids["other"] = ids["basedOn"] = [.. versions.Distinct()];
        return ids;
    }

    private sealed class Keeper(ConcurrentQueue<(LogLevel Level, string Text)> logged) : ILoggerProvider, ILogger
    {
        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            logged.Enqueue((logLevel, formatter(state, exception) + exception));

        public void Dispose()
        {
        }
    }
}
