using System.Text;
using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Decisions;

/// <summary>The record as staff use it: search it, take it out, walk the chain, erase a person.</summary>
public sealed class DecisionRecordTests : IDisposable
{
    private readonly ApiHost api = new();

    public void Dispose() => api.Dispose();

    [Fact]
    public async Task A_list_pages_newest_first_through_what_the_filters_let_by()
    {
        var ids = new List<string>();
        for (var i = 0; i < 5; i++)
        {
            ids.Add((string)(await api.Answer("/v1/recommendations", About("NM-04", "HC-1")))["decisionId"]!);
            await api.Answer("/v1/recommendations", About("NM-05", "HC-2"));
        }

        var first = await api.Get("/v1/decisions?athlete=NM-04&limit=3");
        var second = await api.Get($"/v1/decisions?athlete=NM-04&limit=3&cursor={(string)first["nextCursor"]!}");

        Assert.Equal(ids.AsEnumerable().Reverse(), Ids(first).Concat(Ids(second)));
        Assert.Null(second["nextCursor"]);
        var line = first["items"]![0]!;
        Assert.Equal(("NM-04", "HC-1", "recommendation", "answered"), ((string)line["athleteRef"]!, (string)line["coach"]!, (string)line["kind"]!, (string)line["status"]!));
        Assert.Equal(5, Ids(await api.Get($"/v1/decisions?athlete=NM-04&exercise={(string)line["top"]!}&version={(string)line["versions"]!["rules"]!}")).Count);
        Assert.Empty(Ids(await api.Get("/v1/decisions?kind=session")));
        Assert.Empty(Ids(await api.Get("/v1/decisions?to=2020-01-01")));
        Assert.Equal(10, Ids(await api.Get("/v1/decisions?from=2020-01-01T00:00:00%2B01:00")).Count);
    }

    [Fact]
    public async Task A_replaced_exercise_finds_its_substitution()
    {
        var answer = await api.Answer("/v1/substitutions", """{"exercise":"back-squat","reason":"equipment","context":{"athlete":{"eventGroup":"sprints"},"phase":"competition","setting":{"place":"hotel"}}}""");

        Assert.Equal([(string)answer["decisionId"]!], Ids(await api.Get("/v1/decisions?exercise=back-squat")));
    }

    [Fact]
    public async Task A_coachs_decisions_are_found_in_list_and_export()
    {
        var hers = await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));
        await api.Answer("/v1/recommendations", About("NM-04", "HC-2"));

        Assert.Equal([(string)hers["decisionId"]!], Ids(await api.Get("/v1/decisions?coach=HC-1")));
        Assert.Single((await api.Client.GetStringAsync("/v1/decisions/export?coach=HC-1")).Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }

    [Fact]
    public async Task An_export_holds_each_record_as_it_is_read_alone()
    {
        for (var i = 0; i < 3; i++)
        {
            await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));
        }

        var lines = (await api.Client.GetStringAsync("/v1/decisions/export")).Split('\n', StringSplitOptions.RemoveEmptyEntries);

        Assert.Equal(3, lines.Length);
        foreach (var line in lines)
        {
            Assert.Equal(await api.Client.GetStringAsync($"/v1/decisions/{(string)JsonNode.Parse(line)!["decisionId"]!}"), line);
        }
    }

    [Fact]
    public async Task An_export_of_an_athlete_holds_what_was_reported_about_them()
    {
        var answer = await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));
        var (path, pick) = ($"/v1/decisions/{(string)answer["decisionId"]!}/outcomes", (string)answer["picks"]![0]!["exercise"]!["id"]!);
        await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));
        foreach (var body in new[] { """ "verdict": "used", "painDuring": 6, "note": "unmistakable" """, """ "verdict": "declined" """ })
        {
            using var reported = await api.Post(path, $$"""{ "exercise": "{{pick}}", {{body}} }""");
            Assert.Equal(201, (int)reported.StatusCode);
        }

        var lines = (await api.Client.GetStringAsync("/v1/decisions/export?athlete=NM-04")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonNode.Parse(l)!).ToList();

        var listed = (await api.Get(path))["items"]!;
        Assert.Equal(["unmistakable", null], listed.AsArray().Select(o => (string?)o!["note"]));
        Assert.True(JsonNode.DeepEquals(listed, lines[0]["outcomes"]), lines[0]["outcomes"]!.ToJsonString());
        Assert.Empty(lines[1]["outcomes"]!.AsArray());
        Assert.DoesNotContain("unmistakable", await api.Client.GetStringAsync("/v1/decisions/export?athlete=NM-04&format=csv"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task In_every_record_the_contributions_sum_to_the_score_exactly()
    {
        foreach (var profile in (await api.Get("/v1/athletes"))["items"]!.AsArray())
        {
            var context = profile!.DeepClone().AsObject();
            context.Remove("ref");
            context.Remove("name");
            await api.Answer("/v1/recommendations", context.ToJsonString());
            await api.Answer("/v1/substitutions", new JsonObject { ["exercise"] = "back-squat", ["context"] = context.DeepClone() }.ToJsonString());
            await api.Answer("/v1/sessions", new JsonObject { ["context"] = context }.ToJsonString());
        }

        var picks = (await api.Client.GetStringAsync("/v1/decisions/export")).Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(line => JsonNode.Parse(line)!["answer"]!["picks"]!.AsArray()).ToList();

        // In decimal arithmetic, which is exact for three places.
        Assert.True(picks.Count > 100);
        Assert.All(picks, p => Assert.Equal((decimal)p!["score"]!, p["contributions"]!.AsArray().Sum(c => (decimal)c!["points"]!)));
    }

    [Fact]
    public async Task A_table_guards_a_ref_that_a_spreadsheet_would_run()
    {
        await api.Answer("/v1/recommendations", About("=cmd|' /C calc'!A0", "HC-1"));

        using var response = await api.Client.GetAsync("/v1/decisions/export?format=csv&kind=recommendation");
        var rows = (await response.Content.ReadAsStringAsync()).Split("\r\n");

        Assert.Equal("text/csv", response.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("decisionId,kind,createdAt,athleteRef,coach,status,top,exercises,", rows[0]);
        Assert.Contains(",'=cmd|' /C calc'!A0,HC-1,answered,", rows[1]);
    }

    [Fact]
    public async Task A_chain_is_walked_and_the_place_of_a_changed_record_named()
    {
        var answer = await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));
        await api.Answer("/v1/recommendations", About("NM-05", "HC-1"));
        using var bare = await api.Client.PostAsync("/v1/decisions/verify", null);
        var intact = JsonNode.Parse(await bare.Content.ReadAsStringAsync())!;
        Assert.Equal((true, 2L), ((bool)intact["intact"]!, (long)intact["checked"]!));
        var noted = await api.Answer("/v1/decisions/verify", $$"""{"head":"{{(string)intact["head"]!}}"}""");
        Assert.True((bool)noted["headFound"]!);
        Assert.False((bool)(await api.Answer("/v1/decisions/verify", $$"""{"head":"{{new string('0', 64)}}"}"""))["headFound"]!);

        api.Sql("UPDATE decisions SET status = 'referred' WHERE sequence = 1");

        var broken = await api.Answer("/v1/decisions/verify", "{}");
        Assert.False((bool)broken["intact"]!);
        Assert.Equal(((string)answer["decisionId"]!, 1L), ((string)broken["firstBroken"]!["decisionId"]!, (long)broken["firstBroken"]!["position"]!));
        using var bad = await api.Post("/v1/decisions/verify", """{"head":"xyz"}""");
        await ProblemAssert.Is(bad, 422, "invalid-request");
    }

    [Fact]
    public async Task What_is_hashed_can_be_hashed_by_anybody()
    {
        var answer = await api.Answer("/v1/recommendations", About("NM-04", "HC-1"));

        var text = await api.Client.GetStringAsync($"/v1/decisions/{(string)answer["decisionId"]!}");

        // Its members stand sorted and without white space already, so the text itself is the canonical form.
        var start = text.IndexOf("\"hashed\":", StringComparison.Ordinal) + "\"hashed\":".Length;
        var hashed = text[start..text.IndexOf(",\"hash\":", StringComparison.Ordinal)];
        var record = JsonNode.Parse(text)!;
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(Encoding.UTF8.GetBytes(hashed))), (string)record["hash"]!);
        var sent = text[(text.IndexOf("\"answer\":", StringComparison.Ordinal) + "\"answer\":".Length)..text.LastIndexOf(",\"facts\":", start, StringComparison.Ordinal)];
        Assert.Equal(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(Encoding.UTF8.GetBytes(sent))), (string)record["hashed"]!["answerHash"]!);
    }

    [Fact]
    public async Task Erasing_an_athlete_takes_the_person_out_everywhere_and_keeps_the_chain()
    {
        using var keyed = await api.Post("/v1/recommendations", About("NM-04", "HC-1"), ("Idempotency-Key", "k"));
        var id = (string)JsonNode.Parse(await keyed.Content.ReadAsStringAsync())!["decisionId"]!;

        using var erased = await api.Client.DeleteAsync("/v1/athletes/NM-04");
        using var again = await api.Client.DeleteAsync("/v1/athletes/NM-04");
        using var profile = await api.Client.GetAsync("/v1/athletes/NM-04");

        Assert.Equal(204, (int)erased.StatusCode);
        await ProblemAssert.Is(again, 404, "not-found");
        Assert.Equal(404, (int)profile.StatusCode);
        var record = await api.Get($"/v1/decisions/{id}");
        Assert.True((bool)record["personalDataErased"]!);
        Assert.Null(record["athleteRef"]);
        Assert.Null(record["coach"]);
        Assert.Null(record["request"]!["coach"]);
        Assert.DoesNotContain("NM-04", record.ToJsonString());
        Assert.Empty(Ids(await api.Get("/v1/decisions?athlete=NM-04")));
        Assert.True((bool)(await api.Answer("/v1/decisions/verify", "{}"))["intact"]!);
        Assert.Equal(0, api.Sql("SELECT count(*) FROM idempotency"));
    }

    private static string About(string reference, string coach) => Examples.Minimal(b =>
    {
        b["athlete"]!["ref"] = reference;
        b["coach"] = coach;
        b["count"] = 2;
    });

    private static List<string> Ids(JsonObject list) => [.. list["items"]!.AsArray().Select(i => (string)i!["decisionId"]!)];
}
