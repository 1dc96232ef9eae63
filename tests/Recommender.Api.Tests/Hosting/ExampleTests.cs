using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Recommender.Api.Tests.Hosting;

/// <summary>
/// The examples of the document come from the service itself. RECOMMENDER_APPROVE=1 asks it again and rewrites openapi/examples; since the program
/// carries the examples, build and approve openapi/v1.json after that.
/// </summary>
[Collection(SharedApi.Name)]
public sealed class ExampleTests(ApiHost api)
{
    private const string SomeId = "01976f2e-4c5a-7d31-9b1e-3f0a5c2d8e47";
    private const string SomeTime = "2026-03-02T16:45:00.000Z";
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [Fact]
    public async Task Every_request_that_is_shown_is_answered()
    {
        var shown = Examples.Files().Where(f => f.Contains(".request.", StringComparison.Ordinal)).ToList();

        Assert.True(shown.Count >= 7);
        foreach (var file in shown)
        {
            await api.Answer(PathOf(file), Examples.Text(file));
        }
    }

    private static string PathOf(string file) => file.Split('.')[0] switch
    {
        "recommendBatch" => "/v1/recommendations/batch",
        "analyseNeeds" => "/v1/needs",
        "composeSession" => "/v1/sessions",
        "substitute" => "/v1/substitutions",
        "substituteBatch" => "/v1/substitutions/batch",
        _ => "/v1/recommendations",
    };

    [Fact]
    public void The_requests_to_try_hold_the_same_bodies()
    {
        var shown = Examples.Files().Where(f => f.Contains(".request.", StringComparison.Ordinal)).Select(f => JsonNode.Parse(Examples.Text(f))).ToList();

        var bodies = File.ReadAllText(Repository.File("openapi", "v1.http")).Split("\n### ")
            .Where(request => request.Contains("\n{", StringComparison.Ordinal)).Select(request => JsonNode.Parse(request[request.IndexOf("\n{", StringComparison.Ordinal)..])).ToList();

        Assert.Equal(shown.Count, bodies.Count);
        Assert.All(bodies, body => Assert.Contains(shown, s => JsonNode.DeepEquals(s, body)));
    }

    [Fact]
    public async Task What_is_shown_is_shaped_like_what_the_service_says()
    {
        foreach (var (file, said) in await Said())
        {
            if (Repository.Approve)
            {
                await File.WriteAllTextAsync(Repository.File("openapi", "examples", file), said.ToJsonString(Readable) + "\n");
                continue;
            }

            var shown = JsonNode.Parse(Examples.Text(file))!;
            Assert.Equal(Keys(said), Keys(shown));
            Assert.Equal((string?)said["title"], (string?)shown["title"]);
            Assert.Equal((string?)(said["status"] as JsonValue)?.ToString(), (shown["status"] as JsonValue)?.ToString());
        }
    }

    /// <summary>What the service says now, cut to a readable length, with an id and a time that stay.</summary>
    private async Task<List<(string File, JsonObject Said)>> Said()
    {
        await using var broken = new ApiHost();
        broken.Sql("CREATE TRIGGER full BEFORE INSERT ON marks BEGIN INSERT INTO nowhere VALUES (1); END");
        broken.Sql("CREATE TRIGGER full_too BEFORE INSERT ON decisions BEGIN INSERT INTO nowhere VALUES (1); END");
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        using var taken = await api.Post("/v1/recommendations", Examples.Minimal(), key);
        var record = await api.Answer("/v1/recommendations", Examples.Case("high-jumper-with-a-locked-knee").Replace("\"count\": 2", "\"count\": 1", StringComparison.Ordinal));
        return
        [
            ("getVocabulary.200.two-words-of-each-list.json", Cut(await api.Get("/v1/vocabulary"), 2)),
            ("listExercises.200.a-page-of-one.json", await api.Get("/v1/exercises?quality=hamstring-capacity&limit=1")),
            ("listExercises.400.an-unknown-quality.json", await Problem(api.Client.GetAsync("/v1/exercises?quality=strength"))),
            ("getExercise.200.nordic-hamstring-lower.json", await api.Get("/v1/exercises/nordic-hamstring-lower")),
            ("getExercise.404.an-unknown-exercise.json", await Problem(api.Client.GetAsync("/v1/exercises/nothing"))),
            ("listAthletes.200.two-of-the-squad.json", Cut(await api.Get("/v1/athletes"), 2)),
            ("getAthlete.200.a-long-jumper.json", await api.Get("/v1/athletes/NM-04")),
            ("getAthlete.404.an-unknown-ref.json", await Problem(api.Client.GetAsync("/v1/athletes/nobody"))),
            ("live.200.ok.json", await api.Get("/health/live")),
            ("ready.200.ok.json", await api.Get("/health/ready")),
            ("ready.503.not-ready.json", await Problem(broken.Client.GetAsync("/health/ready"))),
            ("recommend.200.answered.json", Fixed(await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon")))),
            ("recommend.200.referred.json", Fixed(await api.Answer("/v1/recommendations", Examples.Minimal(b => b["redFlags"] = new JsonArray("chest-pain"))))),
            ("recommend.200.nothing-eligible.json", Fixed(await api.Answer("/v1/recommendations", Examples.Minimal(b => b["only"] = JsonNode.Parse("{\"pattern\":[\"hinge\"],\"quality\":[\"rotator-cuff-strength\"]}"))))),
            ("analyseNeeds.200.a-tested-sprinter.json", await api.Answer("/v1/needs", Examples.Text("analyseNeeds.request.a-tested-sprinter.json"))),
            ("composeSession.200.a-jumper-with-half-an-hour.json", Fixed(await api.Answer("/v1/sessions", Examples.Text("composeSession.request.a-jumper-with-half-an-hour.json")))),
            ("substitute.200.a-squat-in-a-hotel.json", Fixed(await api.Answer("/v1/substitutions", Examples.Text("substitute.request.a-squat-in-a-hotel.json")))),
            ("substituteBatch.200.an-answer-and-a-problem.json", FixedBatch(await api.Answer("/v1/substitutions/batch", Examples.Text("substituteBatch.request.an-answer-and-a-problem.json")))),
            ("recommendBatch.200.an-answer-and-a-problem.json", FixedBatch(await api.Answer("/v1/recommendations/batch", Examples.Text("recommendBatch.request.an-answer-and-a-problem.json")))),
            ("getDecision.200.a-referral-beside-picks.json", FixedRecord(await api.Get($"/v1/decisions/{(string)record["decisionId"]!}"))),
            ("problem.malformed-request.json", await Problem(api.Post("/v1/recommendations", "{\"phase\":\"taper\",\"colour\":\"red\"}"))),
            ("problem.invalid-request.json", await Problem(api.Post("/v1/recommendations", "{\"athlete\":{\"event\":\"long-jump\"},\"phase\":\"winter\",\"complaints\":[{\"region\":\"knee\",\"pain\":11}]}"))),
            ("problem.not-found.json", await Problem(api.Client.GetAsync($"/v1/decisions/{SomeId}"))),
            ("problem.idempotency-conflict.json", await Problem(api.Post("/v1/recommendations", Examples.Minimal(b => b["count"] = 2), key))),
            ("problem.body-too-large.json", await Problem(api.Post("/v1/recommendations", new byte[300_000]))),
            ("problem.unsupported-media-type.json", await Problem(api.Send("/v1/recommendations", new StringContent("phase=taper")))),
            ("problem.store-unavailable.json", await Problem(broken.Post("/v1/recommendations", Examples.Minimal()))),
        ];
    }

    private static async Task<JsonObject> Problem(Task<HttpResponseMessage> call)
    {
        using var response = await call;
        return JsonNode.Parse(await response.Content.ReadAsStringAsync())!.AsObject();
    }

    private static JsonObject Cut(JsonObject lists, int length) =>
        new(lists.Select(l => KeyValuePair.Create<string, JsonNode?>(l.Key, new JsonArray([.. l.Value!.AsArray().Take(length).Select(i => i!.DeepClone())]))));

    private static JsonObject Fixed(JsonObject answer)
    {
        answer["decisionId"] = SomeId;
        return answer;
    }

    private static JsonObject FixedBatch(JsonObject batch)
    {
        Fixed(batch["answers"]![0]!["answer"]!.AsObject());
        return batch;
    }

    private static JsonObject FixedRecord(JsonObject record)
    {
        record["decisionId"] = SomeId;
        record["createdAt"] = SomeTime;
        record["hash"] = new string('5', 64);
        record["previousHash"] = new string('a', 64);
        Fixed(record["answer"]!.AsObject());
        return record;
    }

    private static IEnumerable<string> Keys(JsonNode node) => node.AsObject().Select(p => p.Key);
}
