using System.Net;
using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Substitutions;

[Collection(SharedApi.Name)]
public sealed class SubstitutionEndpointsTests(ApiHost api)
{
    private const string Path = "/v1/substitutions";

    [Theory]
    [InlineData("substitute.request.a-squat-in-a-hotel.json")]
    [InlineData("substitute.request.an-exercise-by-its-tags.json")]
    public async Task Answers_are_valid_against_the_served_document_and_on_record(string file)
    {
        var document = await ServedDocument.Of(api);
        document.MustAccept("SubstitutionRequest", Examples.Text(file));

        var answer = await api.Answer(Path, Examples.Text(file));
        document.MustAccept("SubstitutionAnswer", answer.ToJsonString());
        Assert.NotEmpty(answer["picks"]!.AsArray());

        var record = await api.Get($"/v1/decisions/{(string)answer["decisionId"]!}");
        document.MustAccept("Decision", record.ToJsonString());
        Assert.Equal("substitution", (string)record["kind"]!);
        Assert.True(JsonNode.DeepEquals(answer, record["answer"]));
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(Examples.Text(file)), record["request"]));
    }

    [Fact]
    public async Task A_batch_is_valid_and_keeps_places()
    {
        var document = await ServedDocument.Of(api);
        var answers = await api.Answer("/v1/substitutions/batch", Examples.Text("substituteBatch.request.an-answer-and-a-problem.json"));
        document.MustAccept("SubstitutionBatchAnswers", answers.ToJsonString());
        Assert.NotNull(answers["answers"]![0]!["answer"]);
        Assert.Equal("/requests/1/context/complaints", (string)answers["answers"]![1]!["problem"]!["errors"]![0]!["pointer"]!);
    }

    [Theory]
    [InlineData("{}", "/exercise", "required")]
    [InlineData("{\"exercise\":\"nothing\"}", "/exercise", "unknown-id")]
    [InlineData("{\"exercise\":\"back-squat\",\"described\":{\"pattern\":\"squat\",\"support\":\"double\",\"qualities\":{\"grip\":1}}}", "/described", "contradiction")]
    [InlineData("{\"described\":{\"pattern\":\"moon\",\"support\":\"double\",\"qualities\":{\"grip\":1}}}", "/described/pattern", "unknown-id")]
    [InlineData("{\"described\":{\"pattern\":\"squat\",\"support\":\"double\",\"qualities\":{\"grip\":4}}}", "/described/qualities/grip", "out-of-range")]
    [InlineData("{\"described\":{\"pattern\":\"squat\",\"support\":\"double\",\"qualities\":{}}}", "/described/qualities", "required")]
    [InlineData("{\"exercise\":\"back-squat\",\"reason\":\"boredom\"}", "/reason", "unknown-id")]
    [InlineData("{\"exercise\":\"back-squat\",\"reason\":\"pain\"}", "/context/complaints", "contradiction")]
    [InlineData("{\"exercise\":\"back-squat\",\"count\":31}", "/count", "out-of-range")]
    public async Task A_fault_is_told_by_pointer(string change, string pointer, string code)
    {
        var body = JsonNode.Parse(change)!.AsObject();
        body["context"] = JsonNode.Parse(Examples.Minimal());
        body["context"]!.AsObject().Remove("count");
        using var response = await api.Post(Path, body.ToJsonString());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        var errors = JsonNode.Parse(await response.Content.ReadAsStringAsync())!["errors"]!.AsArray();
        Assert.Contains(errors, e => (string)e!["pointer"]! == pointer && (string)e["code"]! == code);
    }

    [Theory]
    [InlineData("{\"exercise\":\"back-squat\"}", "/context", "required")]
    [InlineData("{\"exercise\":\"back-squat\",\"context\":{\"athlete\":{\"event\":\"100m\"},\"phase\":\"winter\"}}", "/context/phase", "unknown-id")]
    [InlineData("{\"exercise\":\"back-squat\",\"context\":{\"athlete\":{\"event\":\"100m\"},\"phase\":\"taper\",\"count\":3}}", "/context/count", "contradiction")]
    public async Task A_fault_of_the_context_keeps_its_pointer(string body, string pointer, string code)
    {
        using var response = await api.Post(Path, body);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        var error = JsonNode.Parse(await response.Content.ReadAsStringAsync())!["errors"]![0]!;
        Assert.Equal((pointer, code), ((string)error["pointer"]!, (string)error["code"]!));
    }
}
