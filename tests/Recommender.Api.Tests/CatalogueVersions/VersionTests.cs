using System.Text;
using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.CatalogueVersions;

/// <summary>A version's life over HTTP, on a store of its own.</summary>
public sealed class VersionTests : IDisposable
{
    private readonly ApiHost api = new();

    public void Dispose() => api.Dispose();

    [Fact]
    public async Task A_changed_load_is_drafted_tried_published_replayed_and_rolled_back()
    {
        var before = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));
        var top = (string)before["picks"]![0]!["exercise"]!["id"]!;
        var was = (string)before["versions"]!["catalogue"]!;

        var draft = await Draft(await Heavier(top));
        Assert.Equal("draft", (string)draft["status"]!);
        Assert.Contains(draft["changes"]!.AsArray(), c => ((string)c!["text"]!).Contains("tissue load, patellar-tendon", StringComparison.Ordinal));
        var version = (string)draft["version"]!;

        var trial = await Lines($"/v1/catalogue/versions/{version}/impact", """{"last":10}""");
        var line = Assert.Single(trial, l => l["decision"] is not null)["decision"]!;
        Assert.Equal(top, (string)line["topWas"]!);
        Assert.NotEqual(top, (string?)line["topIs"]);
        Assert.Equal((1, 1, 1), ((int)trial[^1]["summary"]!["tried"]!, (int)trial[^1]["summary"]!["changed"]!, (int)trial[^1]["summary"]!["topMoved"]!));
        Assert.Equal(1, api.DecisionCount());

        var published = await Put("/v1/catalogue/current", $$"""{"version":"{{version}}"}""");
        Assert.Equal(version, (string)published["versions"]!["catalogue"]!);
        var after = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));
        Assert.Equal(version, (string)after["versions"]!["catalogue"]!);
        Assert.NotEqual(top, (string)after["picks"]![0]!["exercise"]!["id"]!);

        var stored = await Replay(before, "stored");
        Assert.True((bool)stored["identical"]!, stored.ToJsonString());
        var current = await Replay(before, "current");
        Assert.False((bool)current["identical"]!);
        var gone = current["differences"]!.AsArray().Single(d => (string)d!["pointer"]! == "/picks/0" && d["is"] is null)!;
        Assert.Contains("patellar-tendon", (string)gone["because"]!);
        Assert.All(current["differences"]!.AsArray(), d => Assert.NotEmpty((string)d!["because"]!));

        Assert.Equal(was, (string)(await Put("/v1/catalogue/current", $$"""{"version":"{{was}}"}"""))["versions"]!["catalogue"]!);
        Assert.True((bool)(await Replay(before, "current"))["identical"]!);
        Assert.True((bool)(await Replay(after, "stored"))["identical"]!);
        Assert.Equal(["current", "published"], (await api.Get("/v1/catalogue/versions"))["items"]!.AsArray().Select(v => (string)v!["status"]!).Order());
    }

    [Fact]
    public async Task An_exercise_as_it_is_served_changes_nothing()
    {
        var draft = await Draft(await api.Get("/v1/exercises/spanish-squat"), expected: 200);

        Assert.Equal("current", (string)draft["status"]!);
        Assert.Empty(draft["changes"]!.AsArray());
    }

    /// <summary>A table that was exported and taken back: modelled loads went out in place of the agreed ones, which stay in the files.</summary>
    [Fact]
    public async Task The_whole_catalogue_as_served_changes_nothing()
    {
        var exercises = new JsonArray();
        for (var cursor = ""; cursor is not null;)
        {
            var page = await api.Get($"/v1/exercises?limit=100{cursor}");
            foreach (var exercise in page["items"]!.AsArray())
            {
                exercises.Add(exercise!.DeepClone());
            }

            cursor = (string?)page["nextCursor"] is { } next ? "&cursor=" + next : null;
        }

        Assert.Contains(exercises, e => e!["tissueLoad"]!.AsObject().Any(l => (string)l.Value!["basis"]! == "modelled"));
        var draft = await Post("/v1/catalogue/versions", new JsonObject { ["upsert"] = exercises.DeepClone() }, 200);
        Assert.Equal("current", (string)draft["status"]!);
        Assert.Empty(draft["changes"]!.AsArray());

        // A load that is called modelled where the model does not speak is still told.
        var grip = exercises.First(e => (string)e!["id"]! == "pull-up")!.DeepClone();
        grip["tissueLoad"]!["shoulder"]!["basis"] = "modelled";
        using var wrong = await api.Client.PostAsync("/v1/catalogue/versions", new StringContent(new JsonObject { ["upsert"] = new JsonArray(grip) }.ToJsonString(), Encoding.UTF8, "application/json"));
        Assert.Equal(422, (int)wrong.StatusCode);
        Assert.StartsWith("/upsert/0/tissueLoad/shoulder", (string)JsonNode.Parse(await wrong.Content.ReadAsStringAsync())!["errors"]![0]!["pointer"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_dry_run_keeps_nothing_and_the_same_draft_twice_is_one()
    {
        var body = (await Heavier("dumbbell-front-squat"));
        var dry = await Draft(body, b => b["dryRun"] = true, expected: 200);
        Assert.Single((await api.Get("/v1/catalogue/versions"))["items"]!.AsArray());
        var first = await Draft(body);
        var again = await Draft(body, expected: 200);

        Assert.Equal((string)dry["version"]!, (string)first["version"]!);
        Assert.Equal((string)first["version"]!, (string)again["version"]!);
        var changes = await api.Get($"/v1/catalogue/versions/current/changes/{(string)first["version"]!}");
        Assert.True(JsonNode.DeepEquals(first["changes"], changes["changes"]));
    }

    [Fact]
    public async Task An_upload_with_a_thousand_errors_lists_them_all_with_pointers()
    {
        var exercise = await api.Get("/v1/exercises/goblet-squat");
        exercise.Remove("loadingsPerUnit");
        var upsert = new JsonArray([.. Enumerable.Range(0, 1000).Select(i =>
        {
            var copy = exercise.DeepClone();
            copy["id"] = $"made-up-{i}";
            copy["name"] = $"Made up {i}";
            copy["synonyms"] = new JsonArray();
            copy["complexity"] = 9;
            return copy;
        })]);
        using var response = await api.Post("/v1/catalogue/versions", new JsonObject { ["upsert"] = upsert }.ToJsonString());

        var problem = await ProblemAssert.Is(response, 422, "invalid-request");

        var pointers = problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!).ToHashSet();
        Assert.All(Enumerable.Range(0, 1000), i => Assert.Contains($"/upsert/{i}/complexity", pointers));
        Assert.Single((await api.Get("/v1/catalogue/versions"))["items"]!.AsArray());
    }

    [Fact]
    public async Task An_exercise_that_others_lead_to_cannot_go_alone()
    {
        using var response = await api.Post("/v1/catalogue/versions", """{"remove":["back-squat"]}""");

        var problem = await ProblemAssert.Is(response, 422, "invalid-request");
        Assert.Contains("back-squat", problem.ToJsonString());
    }

    [Fact]
    public async Task Rules_are_drafted_by_file_and_what_is_wrong_in_one_is_told_at_its_place()
    {
        var text = await api.Get("/v1/rules/versions/current");
        var defaults = text["rules/defaults.json"]!.DeepClone();
        defaults["count"] = 4;
        var draft = await Post("/v1/rules/versions", new JsonObject { ["upsert"] = new JsonArray(new JsonObject { ["file"] = "rules/defaults.json", ["content"] = defaults.DeepClone() }) }, 201);
        Assert.Equal("rules/defaults.json, count: from 6 to 4.", (string)draft["changes"]![0]!["text"]!);
        await Put("/v1/rules/current", $$"""{"version":"{{(string)draft["version"]!}}"}""");
        Assert.Equal(4, (await api.Answer("/v1/recommendations", Examples.Minimal()))["picks"]!.AsArray().Count);

        defaults["count"] = "many";
        using var bad = await api.Post("/v1/rules/versions", new JsonObject { ["upsert"] = new JsonArray(new JsonObject { ["file"] = "rules/defaults.json", ["content"] = defaults }) }.ToJsonString());
        await ProblemAssert.Is(bad, 422, "invalid-request", "/upsert/0/content/count", "invalid");
        using var foreign = await api.Post("/v1/rules/versions", """{"upsert":[{"file":"../secrets.json","content":{}}]}""");
        await ProblemAssert.Is(foreign, 422, "invalid-request", "/upsert/0/file", "unknown-id");
    }

    [Fact]
    public async Task A_draft_can_be_taken_away_and_what_was_in_force_cannot()
    {
        var version = (string)(await Draft(await Heavier("dumbbell-front-squat")))["version"]!;
        using var draft = await api.Client.DeleteAsync($"/v1/catalogue/versions/{version}");
        using var again = await api.Client.DeleteAsync($"/v1/catalogue/versions/{version}");
        var current = (string)(await api.Get("/v1/catalogue/versions"))["items"]![0]!["version"]!;
        using var inForce = await api.Client.DeleteAsync($"/v1/catalogue/versions/{current}");
        using var publish = await api.Client.PutAsync("/v1/catalogue/current", Json($$"""{"version":"{{version}}"}"""));

        Assert.Equal(204, (int)draft.StatusCode);
        await ProblemAssert.Is(again, 404, "not-found");
        await ProblemAssert.Is(inForce, 409, "state-forbids");
        await ProblemAssert.Is(publish, 422, "invalid-request", "/version", "unknown-id");
    }

    [Fact]
    public async Task What_was_put_in_force_is_in_force_after_a_restart()
    {
        var version = (string)(await Draft(await Heavier("dumbbell-front-squat")))["version"]!;
        await Put("/v1/catalogue/current", $$"""{"version":"{{version}}"}""");

        await using var next = api.Again();

        Assert.Equal(version, (string)(await next.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["catalogue"]!);
    }

    /// <summary>Asked again under its key, a draft comes with the bytes and the status that it came with.</summary>
    [Fact]
    public async Task A_draft_asked_for_again_under_its_key_is_the_same_answer()
    {
        var slower = await api.Get("/v1/exercises/goblet-squat");
        slower["setUpMinutes"] = 4.5;
        var body = new JsonObject { ["upsert"] = new JsonArray(slower) }.ToJsonString();
        var (first, again) = (await Keyed(body), await Keyed(body));

        Assert.Equal((201, first.Text), first);
        Assert.Equal(first, again);

        async Task<(int Status, string Text)> Keyed(string sent)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/catalogue/versions") { Content = Json(sent), Headers = { { "Idempotency-Key", "draft-of-the-goblet-squat" } } };
            using var response = await api.Client.SendAsync(request);
            return ((int)response.StatusCode, await response.Content.ReadAsStringAsync());
        }
    }

    /// <summary>Two parts of the body with faults of two kinds, one that a schema sees and one that it does not: both are told.</summary>
    [Fact]
    public async Task What_a_schema_sees_hides_nothing_else()
    {
        var (shape, fit) = (await Heavier("goblet-squat"), await Heavier("wall-sit"));
        shape["support"] = "both";
        fit["places"] = new JsonArray("cellar");

        var problem = await Post("/v1/catalogue/versions", new JsonObject { ["upsert"] = new JsonArray(shape, fit), ["dryRun"] = true }, 422);

        var pointers = problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!).ToList();
        Assert.Contains("/upsert/0/support", pointers);
        Assert.Contains(pointers, p => p.StartsWith("/upsert/1/places", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_changed_record_shows_in_its_replay()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b => b["count"] = 2));
        var other = await api.Answer("/v1/recommendations", Examples.Minimal(b => b["count"] = 3));
        api.Sql($"UPDATE decisions SET request = (SELECT request FROM decisions WHERE decision_id = '{(string)other["decisionId"]!}') WHERE decision_id = '{(string)answer["decisionId"]!}'");

        var replay = await Replay(answer, "stored");

        Assert.False((bool)replay["identical"]!);
        Assert.Contains("was changed", (string)replay["differences"]![0]!["because"]!);
    }

    [Fact]
    public async Task An_erased_athletes_decision_is_replayed_on_what_is_left()
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));
        using var erased = await api.Client.DeleteAsync("/v1/athletes/NM-04");
        Assert.Equal(204, (int)erased.StatusCode);

        Assert.True((bool)(await Replay(answer, "stored"))["identical"]!);
    }

    /// <summary>The exercise, far harder on the patellar tendon.</summary>
    private async Task<JsonObject> Heavier(string id)
    {
        var exercise = await api.Get($"/v1/exercises/{id}");
        exercise["tissueLoad"]!["patellar-tendon"] = JsonNode.Parse("""{"value":9,"low":9,"high":9.5,"basis":"common-practice","source":null}""");
        exercise["loadingRate"] = "fast";
        return exercise;
    }

    private Task<JsonObject> Draft(JsonObject exercise, Action<JsonObject>? change = null, int expected = 201)
    {
        var body = new JsonObject { ["upsert"] = new JsonArray(exercise.DeepClone()) };
        change?.Invoke(body);
        return Post("/v1/catalogue/versions", body, expected);
    }

    private async Task<JsonObject> Post(string path, JsonObject body, int expected)
    {
        using var response = await api.Post(path, body.ToJsonString());
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == expected, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private async Task<JsonObject> Put(string path, string body)
    {
        using var response = await api.Client.PutAsync(path, Json(body));
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == 200, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private async Task<List<JsonNode>> Lines(string path, string body)
    {
        using var response = await api.Post(path, body);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == 200, text);
        return [.. text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonNode.Parse(l)!)];
    }

    private Task<JsonObject> Replay(JsonObject answer, string on) => api.Answer($"/v1/decisions/{(string)answer["decisionId"]!}/replay", $$"""{"on":"{{on}}"}""");

    private static StringContent Json(string body) => new(body, Encoding.UTF8, "application/json");
}
