using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Recommender.Api.Tests.Hosting;

/// <summary>The document as a contract: the committed copy, what every operation must say, and that what is sent keeps it.</summary>
[Collection(SharedApi.Name)]
public sealed partial class OpenApiContractTests(ApiHost api)
{
    [Fact]
    public async Task The_committed_copy_is_byte_equal_to_what_is_served()
    {
        var served = await api.Client.GetByteArrayAsync("/openapi/v1.json");
        var file = Repository.File("openapi", "v1.json");
        if (Repository.Approve)
        {
            await File.WriteAllBytesAsync(file, served);
        }

        var committed = await File.ReadAllBytesAsync(file);
        Assert.True(served.AsSpan().SequenceEqual(committed),
            "openapi/v1.json is not what is served. Read the difference as a caller would, then run this test with RECOMMENDER_APPROVE=1 and tell it in openapi/CHANGELOG.md.");
    }

    [Fact]
    public async Task It_is_openapi_3_1_and_names_no_machine()
    {
        var document = await ServedDocument.Of(api);

        Assert.StartsWith("3.1.", (string)document.Root["openapi"]!);
        Assert.Equal(["/"], document.Root["servers"]!.AsArray().Select(s => (string)s!["url"]!));
        Assert.DoesNotMatch(Leaks(), document.Text);
        Assert.Contains("not medical advice", (string)document.Root["info"]!["description"]!);
    }

    [Fact]
    public async Task Every_operation_says_what_it_is_for_and_shows_an_example_of_what_it_takes_and_gives()
    {
        var document = await ServedDocument.Of(api);
        var tags = document.Root["tags"]!.AsArray().ToDictionary(t => (string)t!["name"]!, t => (string)t!["description"]!);

        Assert.All(document.Operations(), x =>
        {
            var (path, _, operation) = x;
            Assert.NotEmpty((string)operation["operationId"]!);
            Assert.NotEmpty((string)operation["summary"]!);
            Assert.NotEmpty((string)operation["description"]!);
            Assert.NotEmpty(tags[(string)operation["tags"]![0]!]);
            Assert.All(operation["parameters"]?.AsArray() ?? [], p => Assert.NotEmpty((string)p!["description"]!));
            foreach (var (media, content) in (operation["requestBody"]?["content"]?.AsObject() ?? [])
                .Concat(operation["responses"]!.AsObject().SelectMany(r => r.Value!["content"]?.AsObject() ?? [])))
            {
                Assert.True(content!["examples"] is JsonObject { Count: > 0 }, $"{path} {media} shows no example");
            }
        });
        Assert.Equal(document.Operations().Count(), document.Operations().Select(o => (string)o.Operation["operationId"]!).Distinct().Count());
    }

    [Fact]
    public async Task Every_example_is_valid_against_its_schema()
    {
        var document = await ServedDocument.Of(api);
        var checkedExamples = 0;
        foreach (var (path, _, operation) in document.Operations())
        {
            foreach (var (_, content) in (operation["requestBody"]?["content"]?.AsObject() ?? [])
                .Concat(operation["responses"]!.AsObject().SelectMany(r => r.Value!["content"]?.AsObject() ?? [])))
            {
                var schema = ((string)content!["schema"]!["$ref"]!).Split('/')[^1];
                foreach (var (name, example) in content["examples"]!.AsObject())
                {
                    var faults = document.Faults(schema, example!["value"]!.ToJsonString());
                    Assert.True(faults.Count == 0, $"{path} {name}: {string.Join("; ", faults)}");
                    checkedExamples++;
                }
            }
        }

        Assert.True(checkedExamples > 20);
    }

    [Fact]
    public async Task Every_problem_is_a_problem_body_and_a_503_or_429_says_when_to_come_back()
    {
        var document = await ServedDocument.Of(api);

        Assert.All(document.Operations().SelectMany(o => o.Operation["responses"]!.AsObject()), r =>
        {
            Assert.EndsWith(".", ((string)r.Value!["description"]!).TrimEnd());
            if (r.Key[0] != '2')
            {
                Assert.Equal("#/components/schemas/ProblemBody", (string)r.Value["content"]!["application/problem+json"]!["schema"]!["$ref"]!);
            }

            Assert.Equal(r.Key is "503" or "429", r.Value["headers"]?["Retry-After"] is not null);
        });
    }

    [Theory]
    [InlineData("recommend", "200,400,401,403,406,409,413,415,422,429,503")]
    [InlineData("analyseNeeds", "200,400,401,403,406,409,413,415,422,429,503")]
    [InlineData("recommendBatch", "200,400,401,403,406,409,413,415,422,429,503")]
    [InlineData("listExercises", "200,400,401,403,406,429,503")]
    [InlineData("getExercise", "200,401,403,404,406,429,503")]
    [InlineData("getVocabulary", "200,401,403,406,429,503")]
    [InlineData("listDecisions", "200,400,401,403,406,429,503")]
    [InlineData("exportDecisions", "200,400,401,403,406,429,503")]
    [InlineData("verifyDecisions", "200,400,401,403,406,409,413,415,422,429,503")]
    [InlineData("saveAthlete", "200,201,400,401,403,406,413,415,422,429,503")]
    [InlineData("eraseAthlete", "204,401,403,404,429,503")]
    [InlineData("getDecision", "200,401,403,404,406,429,503")]
    [InlineData("compareExercises", "200,400,401,403,404,406,429,503")]
    [InlineData("findCounterfactuals", "200,400,401,403,404,406,429,503")]
    [InlineData("analyseSensitivity", "200,400,401,403,404,406,429,503")]
    [InlineData("listAthletes", "200,401,403,406,429,503")]
    [InlineData("getAthlete", "200,401,403,404,406,429,503")]
    [InlineData("listKeys", "200,401,403,406,429,503")]
    [InlineData("createKey", "201,400,401,403,406,409,413,415,422,429,503")]
    [InlineData("rotateKey", "200,400,401,403,404,406,409,413,415,422,429,503")]
    [InlineData("revokeKey", "204,401,403,404,429,503")]
    [InlineData("reportOutcome", "200,201,400,401,403,404,406,409,413,415,422,429,503")]
    [InlineData("listOutcomes", "200,401,403,404,406,429,503")]
    [InlineData("listPreferences", "200,401,403,406,429,503")]
    [InlineData("publishPreference", "200,400,401,403,406,413,415,422,429,503")]
    [InlineData("live", "200")]
    [InlineData("ready", "200,503")]
    public async Task An_operation_lists_what_it_can_answer(string operationId, string statuses)
    {
        var document = await ServedDocument.Of(api);

        var operation = document.Operations().Single(o => (string)o.Operation["operationId"]! == operationId).Operation;
        Assert.Equal(statuses.Split(','), operation["responses"]!.AsObject().Select(r => r.Key));
    }

    [Fact]
    public async Task Every_post_takes_an_idempotency_key()
    {
        var document = await ServedDocument.Of(api);

        Assert.All(document.Operations(), o => Assert.Equal(
            // A secret is shown once, so it cannot be given again.
            o.Method == "post" && (string)o.Operation["operationId"]! is not ("createKey" or "rotateKey"),
            o.Operation["parameters"]?.AsArray().Any(p => (string)p!["name"]! == "Idempotency-Key" && (string)p["in"]! == "header") ?? false));
    }

    [Fact]
    public async Task The_filters_of_the_catalogue_are_those_that_are_taken()
    {
        var document = await ServedDocument.Of(api);
        var documented = document.Root["paths"]!["/v1/exercises"]!["get"]!["parameters"]!.AsArray().Select(p => (string)p!["name"]!).ToList();

        using var refused = await api.Client.GetAsync("/v1/exercises?none");
        var message = (string)(await ProblemAssert.Is(refused, 400, "malformed-request", "?none", "unknown-parameter"))["detail"]!;

        Assert.EndsWith($"there are {string.Join(", ", documented)}.", message);
        foreach (var parameter in document.Root["paths"]!["/v1/exercises"]!["get"]!["parameters"]!.AsArray().Where(p => (string)p!["name"]! != "maxLoad"))
        {
            using var taken = await api.Client.GetAsync($"/v1/exercises?{(string)parameter!["name"]!}={parameter["example"]}");
            Assert.Equal(200, (int)taken.StatusCode);
        }
    }

    [Theory]
    [MemberData(nameof(Examples.CaseNames), MemberType = typeof(Examples))]
    public async Task A_case_its_answer_and_its_record_are_valid_against_the_served_document(string name)
    {
        var document = await ServedDocument.Of(api);
        document.MustAccept("RecommendationRequest", Examples.Case(name));

        var answer = await api.Answer("/v1/recommendations", Examples.Case(name));

        document.MustAccept("Answer", answer.ToJsonString());
        document.MustAccept("Decision", await api.Client.GetStringAsync($"/v1/decisions/{(string)answer["decisionId"]!}"));
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("not json")]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\",\"ageYears\":200},\"phase\":\"winter\"}")]
    public async Task Problems_are_valid_against_the_served_document(string body)
    {
        var document = await ServedDocument.Of(api);

        using var response = await api.Post("/v1/recommendations", body);

        document.MustAccept("ProblemBody", await response.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task Answers_without_picks_and_batches_are_valid_against_the_served_document()
    {
        var document = await ServedDocument.Of(api);

        foreach (var change in new[] { "{\"redFlags\":[\"chest-pain\"]}", "{\"only\":{\"support\":[]}}" })
        {
            var body = Examples.Minimal(b =>
            {
                foreach (var (name, value) in JsonNode.Parse(change)!.AsObject())
                {
                    b[name] = value?.DeepClone();
                }
            });
            document.MustAccept("RecommendationRequest", body);
            document.MustAccept("Answer", (await api.Answer("/v1/recommendations", body)).ToJsonString());
        }

        document.MustAccept("BatchAnswers", (await api.Answer("/v1/recommendations/batch", Examples.Text("recommendBatch.request.an-answer-and-a-problem.json"))).ToJsonString());
    }

    [Fact]
    public async Task The_vocabulary_the_whole_catalogue_the_squad_and_health_are_valid_against_the_served_document()
    {
        var document = await ServedDocument.Of(api);

        document.MustAccept("Vocabulary", await api.Client.GetStringAsync("/v1/vocabulary"));
        document.MustAccept("AthleteList", await api.Client.GetStringAsync("/v1/athletes"));
        document.MustAccept("AthleteProfile", await api.Client.GetStringAsync("/v1/athletes/NM-04"));
        document.MustAccept("Exercise", await api.Client.GetStringAsync("/v1/exercises/back-squat"));
        document.MustAccept("Health", await api.Client.GetStringAsync("/health/ready"));
        for (string? cursor = ""; cursor is not null;)
        {
            var page = await api.Client.GetStringAsync($"/v1/exercises?limit=100&cursor={cursor}");
            document.MustAccept("ExercisePage", page);
            cursor = (string?)JsonNode.Parse(page)!["nextCursor"];
        }
    }

    // The validator itself is under test here: faults planted in a valid answer must be seen.
    [Theory]
    [InlineData("/status", "\"done\"")]
    [InlineData("/eligibleCount", "\"63\"")]
    [InlineData("/picks/0/score", "null")]
    [InlineData("/picks/0/contributions/0/basis", "\"guess\"")]
    [InlineData("/picks/0/dose/unit", "\"laps\"")]
    [InlineData("/referral", "{}")]
    [InlineData("/versions/surprise", "1")]
    [InlineData("/assumed/0/value", "null")]
    [InlineData("/decisionId", "\"1\"")]
    public async Task A_planted_fault_is_seen(string pointer, string value)
    {
        var document = await ServedDocument.Of(api);
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal());
        JsonNode place = answer;
        var path = pointer[1..].Split('/');
        foreach (var part in path[..^1])
        {
            place = place is JsonArray list ? list[int.Parse(part, System.Globalization.CultureInfo.InvariantCulture)]! : place[part]!;
        }

        place[path[^1]] = JsonNode.Parse(value);

        Assert.NotEmpty(document.Faults("Answer", answer.ToJsonString()));
    }

    [Fact]
    public async Task Every_property_that_is_sent_must_be_there()
    {
        var document = await ServedDocument.Of(api);
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal());

        foreach (var (name, _) in answer.ToList())
        {
            var without = answer.DeepClone().AsObject();
            without.Remove(name);
            Assert.NotEmpty(document.Faults("Answer", without.ToJsonString()));
        }
    }

    [GeneratedRegex(@"Recommender\.[A-Z]|System\.|localhost|127\.0\.0\.1|NullableOf|IReadOnly")]
    private static partial Regex Leaks();
}
