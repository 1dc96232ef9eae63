using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Recommender.Answers.Access;
using Recommender.Api.Tests.Access;

namespace Recommender.Api.Tests.Hosting;

/// <summary>
/// The examples of the document come from the service itself. RECOMMENDER_APPROVE=1 asks it again and rewrites openapi/examples; since the program
/// carries the examples, build and approve openapi/v1.json after that.
/// </summary>
[Collection(SharedApi.Name)]
public sealed class ExampleTests(ApiHost api)
{
    private const string SomeId = "01976f2e-4c5a-7d31-9b1e-3f0a5c2d8e47";
    private static readonly string[] Prepared = ["saveAthlete", "publish", "replayDecision", "tryCatalogue", "tryRules", "createKey", "rotateKey", "reportOutcome"];
    private const string SomeTime = "2026-03-02T16:45:00.000Z";
    private static readonly JsonSerializerOptions Readable = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    [Fact]
    public async Task Every_request_that_is_shown_is_answered()
    {
        var shown = Examples.Files().Where(f => f.Contains(".request.", StringComparison.Ordinal)).ToList();

        Assert.True(shown.Count >= 7);
        foreach (var file in shown)
        {
            // What needs something there first has an answer shown below.
            if (!Prepared.Any(p => file.StartsWith(p, StringComparison.Ordinal)))
            {
                await api.Answer(PathOf(file), Examples.Text(file));
            }
        }
    }

    private static string PathOf(string file) => file.Split('.')[0] switch
    {
        "recommendBatch" => "/v1/recommendations/batch",
        "analyseNeeds" => "/v1/needs",
        "composeSession" => "/v1/sessions",
        "substitute" => "/v1/substitutions",
        "verifyDecisions" => "/v1/decisions/verify",
        "draftCatalogue" => "/v1/catalogue/versions",
        "draftRules" => "/v1/rules/versions",
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
        await using var versions = new ApiHost();
        var answered = await versions.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon").Replace("\"count\": 6", "\"count\": 1", StringComparison.Ordinal));
        var record = await api.Answer("/v1/recommendations", Examples.Case("high-jumper-with-a-locked-knee").Replace("\"count\": 2", "\"count\": 1", StringComparison.Ordinal));
        var asked = $"/v1/decisions/{(string)(await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon")))["decisionId"]!}";
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
            ("compareExercises.200.a-squat-and-a-jump-on-a-sore-tendon.json", await api.Get($"{asked}/comparison?first=front-squat&second=depth-jump")),
            ("compareExercises.400.an-unknown-exercise.json", await Problem(api.Client.GetAsync($"{asked}/comparison?first=front-sqat&second=depth-jump"))),
            ("findCounterfactuals.200.what-would-let-a-squat-come-first.json", await api.Get($"{asked}/counterfactuals?exercise=front-squat")),
            ("findCounterfactuals.400.no-exercise.json", await Problem(api.Client.GetAsync($"{asked}/counterfactuals"))),
            ("analyseSensitivity.200.a-first-pick.json", await api.Get($"{asked}/sensitivity")),
            ("analyseSensitivity.400.a-query.json", await Problem(api.Client.GetAsync($"{asked}/sensitivity?samples=10"))),
            ("listDecisions.200.one-of-many.json", FixedList(await api.Get("/v1/decisions?athlete=NM-07&limit=1"))),
            ("exportDecisions.200.one-record-a-line.json", FixedRecord(await api.Get($"/v1/decisions/{(string)record["decisionId"]!}"))),
            ("verifyDecisions.200.an-untouched-chain.json", FixedVerification(await api.Answer("/v1/decisions/verify", "{}"))),
            .. await Versions(versions, answered),
            .. await Keys(),
            .. await Outcomes(asked),
            ("listPreferences.200.nothing-learned.json", await api.Get("/v1/preferences")),
            ("publishPreference.200.none-in-force.json", await Put("/v1/preferences/current", Examples.Text("publishPreference.request.a-coach-without.json"))),
            ("saveAthlete.200.a-profile.json", await Saved("NM-99", created: false)),
            ("saveAthlete.201.a-profile.json", await Saved("NM-98", created: true)),
            ("problem.malformed-request.json", await Problem(api.Post("/v1/recommendations", "{\"phase\":\"taper\",\"colour\":\"red\"}"))),
            ("problem.invalid-request.json", await Problem(api.Post("/v1/recommendations", "{\"athlete\":{\"event\":\"long-jump\"},\"phase\":\"winter\",\"complaints\":[{\"region\":\"knee\",\"pain\":11}]}"))),
            ("problem.not-found.json", await Problem(api.Client.GetAsync($"/v1/decisions/{SomeId}"))),
            ("problem.idempotency-conflict.json", await Problem(api.Post("/v1/recommendations", Examples.Minimal(b => b["count"] = 2), key))),
            ("problem.body-too-large.json", await Problem(api.Post("/v1/recommendations", new byte[300_000]))),
            ("problem.unsupported-media-type.json", await Problem(api.Send("/v1/recommendations", new StringContent("phase=taper")))),
            ("problem.store-unavailable.json", await Problem(broken.Post("/v1/recommendations", Examples.Minimal()))),
        ];
    }

    /// <summary>A key's life, and what is said to one who has none, too little, or asks too often; with an id and a secret that stay.</summary>
    private static async Task<List<(string File, JsonObject Said)>> Keys()
    {
        await using var api = new ApiHost { Settings = new Dictionary<string, string> { ["Limits:PerSecond"] = "1", ["Limits:Burst"] = "100" } };
        var (admin, coach) = (await api.Key("club", Scopes.Admin), await api.Key("club", Scopes.Recommend));
        var made = await Asked("POST", "/v1/keys", admin, Examples.Text("createKey.request.a-laptop-at-the-track.json"), 201);
        var id = (string)made["about"]!["id"]!;
        var changed = await Asked("POST", $"/v1/keys/{id}/rotation", admin, Examples.Text("rotateKey.request.with-an-hour-to-change-over.json"), 200);
        await api.Text(admin, 204, "DELETE", $"/v1/keys/{id}");
        var list = await Asked("GET", "/v1/keys", admin, null, 200);
        list["items"] = new JsonArray(Line(list["items"]!.AsArray().Single(k => (string)k!["id"]! == id)!.DeepClone().AsObject()));
        var over = await Asked("POST", $"/v1/keys/{id}/rotation", admin, null, 409);
        api.Sql("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 600) INSERT INTO access_keys (key_id, organisation, scopes, created_at, salt, hash) SELECT printf('%016x', i), 'club', 'recommend', 1, zeroblob(16), zeroblob(32) FROM n");
        var full = await Asked("POST", "/v1/keys", admin, """{"scopes":["recommend"]}""", 409);
        List<(string, JsonObject)> said =
        [
            ("createKey.201.shown-this-once.json", New(made)), ("createKey.409.as-many-as-may-be.json", full), ("rotateKey.200.shown-this-once.json", New(changed)), ("rotateKey.409.it-was-ended.json", over),
            ("listKeys.200.one-that-was-ended.json", list),
            ("problem.key-needed.json", await Asked("GET", "/v1/vocabulary", null, null, 401)), ("problem.scope-missing.json", await Asked("GET", "/v1/decisions", coach, null, 403)),
            ("problem.not-acceptable.json", JsonNode.Parse(await api.Text(coach, 406, "GET", "/v1/vocabulary", null, ("Accept", "application/xml")))!.AsObject()),
        ];
        var many = await Task.WhenAll(Enumerable.Range(0, 200).Select(_ => api.Ask(coach, "GET", "/v1/exercises/back-squat")));
        said.Add(("problem.too-many-requests.json", JsonNode.Parse(await many.First(r => (int)r.StatusCode == 429).Content.ReadAsStringAsync())!.AsObject()));
        Array.ForEach(many, r => r.Dispose());
        return said;

        async Task<JsonObject> Asked(string method, string path, string? key, string? body, int status) => JsonNode.Parse(await api.Text(key, status, method, path, body))!.AsObject();

        static JsonObject New(JsonObject made)
        {
            made["key"] = $"accesskey-tf_0123456789abcdef_{new string('0', 64)}";
            Line(made["about"]!.AsObject());
            return made;
        }

        static JsonObject Line(JsonObject key)
        {
            key["id"] = "0123456789abcdef";
            foreach (var name in new[] { "createdAt", "expiresAt", "rotatedAt", "revokedAt", "formerUntil" })
            {
                key[name] = key[name] is null ? null : SomeTime;
            }

            return key;
        }
    }

    private async Task<JsonObject> Put(string path, string body)
    {
        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        using var response = await api.Client.PutAsync(path, content);
        return JsonNode.Parse(await response.Content.ReadAsStringAsync())!.AsObject();
    }

    /// <summary>A report, the same again, and both in the list.</summary>
    private async Task<List<(string File, JsonObject Said)>> Outcomes(string asked)
    {
        var body = Examples.Text("reportOutcome.request.a-hold-that-was-done.json");
        var said = new List<(string, JsonObject)>();
        foreach (var (file, sent) in new[] { ("", body.Replace("\"painDuring\": 3", "\"painDuring\": 6", StringComparison.Ordinal)), ("reportOutcome.201.kept.json", body), ("reportOutcome.200.said-already.json", body) })
        {
            using var response = await api.Post($"{asked}/outcomes", sent);
            Assert.Equal(file.Contains(".200.", StringComparison.Ordinal) ? 200 : 201, (int)response.StatusCode);
            if (file.Length > 0)
            {
                said.Add((file, FixedOutcome(JsonNode.Parse(await response.Content.ReadAsStringAsync())!.AsObject())));
            }
        }

        var list = await api.Get($"{asked}/outcomes");
        list["items"]!.AsArray().ToList().ForEach(o => FixedOutcome(o!.AsObject()));
        said.Add(("listOutcomes.200.two-reports.json", list));
        return said;
    }

    private static JsonObject FixedOutcome(JsonObject outcome)
    {
        outcome["decisionId"] = SomeId;
        outcome["createdAt"] = SomeTime;
        return outcome;
    }

    /// <summary>A version's life, of either kind; each answer with an id and a time that stay.</summary>
    private static async Task<List<(string File, JsonObject Said)>> Versions(ApiHost api, JsonObject asked)
    {
        var said = new List<(string, JsonObject)>();
        var id = (string)asked["decisionId"]!;
        foreach (var (name, path) in new[] { ("Catalogue", "/v1/catalogue"), ("Rules", "/v1/rules") })
        {
            var body = Examples.Text($"draft{name}.request.a-small-change.json");
            said.Add(($"draft{name}.200.checked-only.json", await api.Answer($"{path}/versions", body)));
            using var kept = await api.Post($"{path}/versions", body.Replace("\"dryRun\": true", "\"dryRun\": false", StringComparison.Ordinal));
            Assert.Equal(201, (int)kept.StatusCode);
            said.Add(($"draft{name}.201.kept.json", JsonNode.Parse(await kept.Content.ReadAsStringAsync())!.AsObject()));
            var version = (string)said[^1].Item2["version"]!;
            var list = await api.Get($"{path}/versions");
            list["items"]!.AsArray().ToList().ForEach(v => v!["createdAt"] = SomeTime);
            said.Add(($"list{name}Versions.200.the-data-folders-and-a-draft.json", list));
            said.Add(($"compare{name}Versions.200.a-small-change.json", await api.Get($"{path}/versions/current/changes/{version}")));
            using var tried = await api.Post($"{path}/versions/{version}/impact", "{\"last\":1}");
            said.Add(($"try{name}Version.200.the-last-line.json", JsonNode.Parse((await tried.Content.ReadAsStringAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries)[^1])!.AsObject()));
            using var published = await api.Client.PutAsync($"{path}/current", new StringContent($$"""{"version":"{{version}}"}""", System.Text.Encoding.UTF8, "application/json"));
            said.Add(($"publish{name}.200.in-force.json", JsonNode.Parse(await published.Content.ReadAsStringAsync())!.AsObject()));
            using var refused = await api.Client.DeleteAsync($"{path}/versions/{version}");
            said.Add(($"discard{name}Version.409.it-is-in-force.json", JsonNode.Parse(await refused.Content.ReadAsStringAsync())!.AsObject()));
        }

        said.Add(("replayDecision.200.the-same-bytes.json", await api.Answer($"/v1/decisions/{id}/replay", "{}")));
        var differs = await api.Answer($"/v1/decisions/{id}/replay", Examples.Text("replayDecision.request.on-todays-versions.json"));
        differs["differences"] = new JsonArray([.. differs["differences"]!.AsArray().Take(2).Select(d => d!.DeepClone())]);
        said.Add(("replayDecision.200.on-todays-versions.json", differs));
        return said;
    }

    private async Task<JsonObject> Saved(string reference, bool created)
    {
        foreach (var expected in created ? new[] { 201 } : [201, 200])
        {
            using var response = await api.Client.PutAsync($"/v1/athletes/{reference}", new StringContent(Examples.Text("saveAthlete.request.a-profile.json"), System.Text.Encoding.UTF8, "application/json"));
            Assert.Equal(expected, (int)response.StatusCode);
            if (expected == (created ? 201 : 200))
            {
                var saved = JsonNode.Parse(await response.Content.ReadAsStringAsync())!.AsObject();
                using var erased = await api.Client.DeleteAsync($"/v1/athletes/{reference}");
                Assert.Equal(204, (int)erased.StatusCode);
                return saved;
            }
        }

        throw new InvalidOperationException("It was not saved.");
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
        record["hashed"]!["previousHash"] = new string('a', 64);
        record["hashed"]!["decisionId"] = SomeId;
        record["hashed"]!["createdAt"] = SomeTime;
        record["hashed"]!["sequence"] = 42;
        record["hashed"]!["answerHash"] = new string('b', 64);
        record["hashed"]!["personalHash"] = new string('c', 64);
        Fixed(record["answer"]!.AsObject());
        return record;
    }

    private static JsonObject FixedList(JsonObject list)
    {
        list["items"]![0]!["decisionId"] = SomeId;
        list["items"]![0]!["createdAt"] = SomeTime;
        list["nextCursor"] = "MTc5NTY3MTc0NDMzMi4xNA";
        return list;
    }

    private static JsonObject FixedVerification(JsonObject verification)
    {
        verification["checked"] = 42;
        verification["head"] = new string('5', 64);
        return verification;
    }

    private static IEnumerable<string> Keys(JsonNode node) => node.AsObject().Select(p => p.Key);
}
