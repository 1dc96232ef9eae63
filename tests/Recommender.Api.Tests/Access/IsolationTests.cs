using System.Text.Json.Nodes;
using Recommender.Answers.Access;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

/// <summary>Two organisations on one service: what belongs to one is not there for the other, by whichever operation it is asked for.</summary>
public sealed class IsolationTests : IAsyncLifetime
{
    private const string Marked = "canary-of-the-club";
    private readonly ApiHost api = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await api.DisposeAsync();

    [Fact]
    public async Task Nothing_of_one_organisation_is_seen_or_changed_with_anothers_key_by_any_operation()
    {
        var (club, academy) = (await api.Key("club", Scopes.All), await api.Key("academy", Scopes.All));
        var owned = await Fill(club);
        var before = await Seen(club, owned);
        var document = await ServedDocument.Of(api);
        foreach (var (path, method, operation) in document.Operations().Where(o => o.Path.StartsWith("/v1/", StringComparison.Ordinal)))
        {
            foreach (var at in Places(path, owned))
            {
                var query = path.EndsWith("/comparison", StringComparison.Ordinal) ? "?first=back-squat&second=front-squat" : path.EndsWith("/counterfactuals", StringComparison.Ordinal) ? "?exercise=back-squat" : "";
                using var response = await api.Ask(academy, method, at + query, Body((string)operation["operationId"]!, owned));

                var (status, text) = ((int)response.StatusCode, await response.Content.ReadAsStringAsync());
                Assert.True(status < 500, $"{method} {at}: {text}");
                Assert.All(owned.Marks, mark => Assert.False(text.Contains(mark, StringComparison.Ordinal), $"{method} {at} shows {mark}: {text}"));

                // The academy may save, and erase, an athlete of its own under the same ref.
                if (at != path && at != "/v1/exercises/back-squat" && !(method is "put" or "delete" && at.StartsWith("/v1/athletes", StringComparison.Ordinal)) && !at.Contains("current", StringComparison.Ordinal))
                {
                    Assert.True(status == 404, $"{method} {at}: {status} {text}");
                }
            }
        }

        // What the academy wrote under the same names is its own; the club's is as it was.
        Assert.Equal(before, await Seen(club, owned));
        Assert.Equal("leg-cradle-walk", (string)JsonNode.Parse(await api.Text(academy, 200, "GET", "/v1/exercises/leg-cradle-walk"))!["id"]!);
        await api.Text(club, 404, "GET", "/v1/exercises/leg-cradle-walk");
    }

    [Fact]
    public async Task Ids_of_another_organisation_inside_a_body_are_unknown()
    {
        var (club, academy) = (await api.Key("club", Scopes.All), await api.Key("academy", Scopes.All));
        var owned = await Fill(club);

        await api.Text(academy, 422, "PUT", "/v1/catalogue/current", $$"""{"version":"{{owned.Version}}"}""");
        await api.Text(academy, 422, "POST", "/v1/catalogue/versions", $$"""{"basedOn":"{{owned.Version}}","upsert":[],"remove":["leg-cradle-walk"]}""");
        await api.Text(academy, 422, "POST", "/v1/sessions", $$"""{"context":{"athlete":{"eventGroup":"jumps"},"phase":"competition"},"previousDecision":"{{owned.Decision}}"}""");
        await api.Text(academy, 404, "GET", $"/v1/catalogue/versions/current/changes/{owned.Version}");
        await api.Text(club, 200, "GET", $"/v1/catalogue/versions/current/changes/{owned.Version}");
    }

    [Fact]
    public async Task The_same_idempotency_key_means_another_request_in_another_organisation()
    {
        var (club, academy) = (await api.Key("club", Scopes.Recommend), await api.Key("academy", Scopes.Recommend));
        var key = ("Idempotency-Key", "monday-gym");
        var body = Examples.Minimal();

        var first = await api.Text(club, 200, "POST", "/v1/recommendations", body, key);
        var other = await api.Text(academy, 200, "POST", "/v1/recommendations", body, key);

        Assert.NotEqual(JsonNode.Parse(first)!["decisionId"]!.ToString(), JsonNode.Parse(other)!["decisionId"]!.ToString());
        Assert.Equal(first, await api.Text(club, 200, "POST", "/v1/recommendations", body, key));
        await api.Text(academy, 409, "POST", "/v1/recommendations", Examples.Minimal(b => b["count"] = 2), key);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task In_any_order_of_work_each_organisation_finds_its_own_and_nothing_else(int seed)
    {
        var random = new Random(seed);
        string[] names = ["club", "academy", "school"];
        var keys = new Dictionary<string, string>();
        var (athletes, decisions) = (names.ToDictionary(n => n, _ => new SortedSet<string>(StringComparer.Ordinal)), names.ToDictionary(n => n, _ => new HashSet<string>()));
        foreach (var name in names)
        {
            keys[name] = await api.Key(name, Scopes.All);
        }

        for (var step = 0; step < 60; step++)
        {
            var who = names[random.Next(names.Length)];
            var reference = $"A-{random.Next(4)}";
            switch (random.Next(4))
            {
                case 0:
                    await api.Text(keys[who], athletes[who].Add(reference) ? 201 : 200, "PUT", $"/v1/athletes/{reference}", $$$"""{"name":"{{{who}}} {{{reference}}}","athlete":{"eventGroup":"jumps"}}""");
                    break;
                case 1:
                    var answer = JsonNode.Parse(await api.Text(keys[who], 200, "POST", "/v1/recommendations", Examples.Minimal(b => b["athlete"]!["ref"] = reference)))!;
                    decisions[who].Add((string)answer["decisionId"]!);
                    break;
                case 2:
                    var list = JsonNode.Parse(await api.Text(keys[who], 200, "GET", "/v1/athletes"))!["items"]!.AsArray();
                    Assert.Equal(athletes[who].Select(r => $"{who} {r}"), list.Select(a => (string)a!["name"]!));
                    break;
                default:
                    var found = JsonNode.Parse(await api.Text(keys[who], 200, "GET", "/v1/decisions?limit=100"))!["items"]!.AsArray().Select(d => (string)d!["decisionId"]!).ToHashSet();
                    Assert.Equal(decisions[who], found);
                    var foreign = names.Where(n => n != who).SelectMany(n => decisions[n]).FirstOrDefault();
                    if (foreign is not null)
                    {
                        await api.Text(keys[who], 404, "GET", $"/v1/decisions/{foreign}");
                    }

                    break;
            }
        }

        foreach (var who in names)
        {
            var walked = JsonNode.Parse(await api.Text(keys[who], 200, "POST", "/v1/decisions/verify"))!;
            Assert.Equal((true, decisions[who].Count), ((bool)walked["intact"]!, (int)walked["checked"]!));
        }
    }

    /// <summary>One of everything that can belong to an organisation.</summary>
    private async Task<Owned> Fill(string key)
    {
        await api.Text(key, 201, "PUT", $"/v1/athletes/{Marked}", $$"""{"name":"{{Marked}} name","athlete":{"eventGroup":"jumps"},"complaints":[{"region":"knee","pain":1,"note":"{{Marked}} note"}]}""");
        var asked = Examples.Minimal(b =>
        {
            b["athlete"]!["ref"] = Marked;
            b["coach"] = Marked + " coach";
        });
        var answer = JsonNode.Parse(await api.Text(key, 200, "POST", "/v1/recommendations", asked, ("Idempotency-Key", Marked)))!;
        var decision = (string)answer["decisionId"]!;
        await api.Text(key, 201, "POST", $"/v1/decisions/{decision}/outcomes", $$"""{"exercise":"{{(string)answer["picks"]![0]!["exercise"]!["id"]!}}","verdict":"used","note":"{{Marked}} outcome"}""");
        var version = (string)JsonNode.Parse(await api.Text(key, 201, "POST", "/v1/catalogue/versions", """{"basedOn":"current","upsert":[],"remove":["leg-cradle-walk"]}"""))!["version"]!;
        await api.Text(key, 200, "PUT", "/v1/catalogue/current", $$"""{"version":"{{version}}"}""");
        var draft = (string)JsonNode.Parse(await api.Text(key, 201, "POST", "/v1/rules/versions",
            Examples.Text("draftRules.request.a-small-change.json").Replace("\"dryRun\": true", "\"dryRun\": false", StringComparison.Ordinal)))!["version"]!;
        var made = JsonNode.Parse(await api.Text(key, 201, "POST", "/v1/keys", $$"""{"scopes":["recommend"],"note":"{{Marked}} key"}"""))!;
        return new Owned(decision, version, draft, (string)made["about"]!["id"]!);
    }

    /// <summary>All that the organisation itself sees of it.</summary>
    private async Task<string> Seen(string key, Owned owned) => string.Join('\n',
    [
        await api.Text(key, 200, "GET", "/v1/athletes"), await api.Text(key, 200, "GET", "/v1/decisions"), await api.Text(key, 200, "GET", $"/v1/decisions/{owned.Decision}"),
        await api.Text(key, 200, "GET", "/v1/decisions/export"), await api.Text(key, 200, "GET", "/v1/catalogue/versions"), await api.Text(key, 200, "GET", "/v1/rules/versions"),
        await api.Text(key, 200, "GET", $"/v1/rules/versions/{owned.Draft}"), await api.Text(key, 200, "GET", "/v1/keys"),
        await api.Text(key, 200, "GET", $"/v1/decisions/{owned.Decision}/outcomes"),
    ]);

    /// <summary>Addresses of an operation with every id of the organisation in its place.</summary>
    private static IEnumerable<string> Places(string path, Owned owned)
    {
        var id = path.StartsWith("/v1/keys", StringComparison.Ordinal) ? owned.Key : path.StartsWith("/v1/exercises", StringComparison.Ordinal) ? "back-squat" : owned.Decision;
        foreach (var version in path.Contains("{version}", StringComparison.Ordinal) ? new[] { owned.Version, owned.Draft } : [owned.Version])
        {
            yield return path.Replace("{id}", id, StringComparison.Ordinal).Replace("{ref}", Marked, StringComparison.Ordinal).Replace("{version}", version, StringComparison.Ordinal).Replace("{other}", owned.Version, StringComparison.Ordinal);
        }
    }

    private static string? Body(string operation, Owned owned) => operation switch
    {
        "recommend" or "analyseNeeds" => Examples.Minimal(),
        "composeSession" => $$"""{"context":{{Examples.Minimal()}}}""",
        "substitute" => $$"""{"exercise":"back-squat","reason":"variety","context":{{Examples.Minimal()}}}""",
        "saveAthlete" => """{"name":"The academy's own","athlete":{"eventGroup":"throws"}}""",
        "createKey" => """{"scopes":["recommend"]}""",
        "draftCatalogue" or "draftRules" => """{"basedOn":"current","upsert":[],"remove":[],"dryRun":true}""",
        "publishCatalogue" or "publishRules" => $$"""{"version":"{{owned.Draft}}"}""",
        "recommendBatch" => $$"""{"requests":[{{Examples.Minimal()}}]}""",
        "substituteBatch" => "{\"requests\":[{}]}",
        "reportOutcome" => """{"exercise":"back-squat","verdict":"declined"}""",
        "publishPreference" => """{"version":"0123456789abcdef0123456789abcdef"}""",
        "verifyDecisions" or "replayDecision" or "rotateKey" or "tryCatalogueVersion" or "tryRulesVersion" => "{}",
        _ => null,
    };

    private sealed record Owned(string Decision, string Version, string Draft, string Key)
    {
        /// <summary>What must not stand in an answer to anybody else. The ref alone may: the other organisation sends it itself.</summary>
        public string[] Marks => [Marked + " name", Marked + " note", Marked + " coach", Marked + " key", Marked + " outcome", Decision, Version, Draft, Key];
    }
}
