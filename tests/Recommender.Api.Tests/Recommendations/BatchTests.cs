using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Recommendations;

[Collection(SharedApi.Name)]
public sealed class BatchTests(ApiHost api)
{
    private const string Path = "/v1/recommendations/batch";

    [Fact]
    public async Task Answers_keep_the_order_of_their_requests_and_a_bad_one_holds_up_no_other()
    {
        var before = api.DecisionCount();

        var batch = await api.Answer(Path, Batch(
            "{\"athlete\":{\"event\":\"100m\"},\"phase\":\"taper\",\"count\":1}",
            "{\"athlete\":{\"event\":\"100m\"},\"phase\":\"taper\",\"complaints\":[{\"region\":\"knee\",\"pain\":11}],\"count\":0}",
            "null",
            "{\"athlete\":{\"event\":\"discus\"},\"phase\":\"taper\",\"count\":2}"));

        var places = batch["answers"]!.AsArray();
        Assert.Equal(4, places.Count);
        Assert.Single(places[0]!["answer"]!["picks"]!.AsArray());
        Assert.Equal(["/requests/1/complaints/0/pain", "/requests/1/count"], Pointers(places[1]!));
        Assert.Equal(422, (int)places[1]!["problem"]!["status"]!);
        Assert.Equal(["/requests/2"], Pointers(places[2]!));
        Assert.Equal(2, places[3]!["answer"]!["picks"]!.AsArray().Count);
        Assert.All(places, p => Assert.Single(p!.AsObject()));
        Assert.Equal(before + 2, api.DecisionCount());
    }

    [Fact]
    public async Task An_answer_in_a_batch_is_the_answer_alone()
    {
        var request = Examples.Case(Examples.Cases[0]);
        var alone = await api.Answer("/v1/recommendations", request);

        var together = (await api.Answer(Path, Batch(request, request)))["answers"]!.AsArray().Select(p => p!["answer"]!.AsObject()).ToList();

        alone.Remove("decisionId");
        Assert.Equal(2, together.Select(a => (string)a["decisionId"]!).Distinct().Count());
        Assert.All(together, a =>
        {
            a.Remove("decisionId");
            Assert.Equal(alone.ToJsonString(), a.ToJsonString());
        });
    }

    [Theory]
    [InlineData("{\"requests\":[]}", "required")]
    [InlineData("{}", "required")]
    [InlineData("{\"requests\":null}", "required")]
    public async Task A_batch_without_requests_is_refused(string body, string code)
    {
        using var response = await api.Post(Path, body);

        await ProblemAssert.Is(response, 422, "invalid-request", "/requests", code);
    }

    [Fact]
    public async Task Five_hundred_requests_are_answered_and_one_more_is_refused()
    {
        var request = "{\"athlete\":{\"event\":\"100m\"},\"phase\":\"taper\",\"count\":1}";

        var full = await api.Answer(Path, Batch([.. Enumerable.Repeat(request, 500)]));
        using var overfull = await api.Post(Path, Batch([.. Enumerable.Repeat(request, 501)]));

        Assert.Equal(500, full["answers"]!.AsArray().Count);
        await ProblemAssert.Is(overfull, 422, "invalid-request", "/requests", "too-many");
    }

    [Theory]
    [InlineData("{\"requests\":[{\"colour\":1}]}", "/requests/0/colour", "unknown-property")]
    [InlineData("{\"requests\":[{},{\"phase\":1}]}", "/requests/1/phase", "wrong-type")]
    [InlineData("{\"requests\":{}}", "/requests", "wrong-type")]
    [InlineData("[]", "", "wrong-type")]
    public async Task A_batch_that_cannot_be_read_is_refused_whole(string body, string pointer, string code)
    {
        using var response = await api.Post(Path, body);

        await ProblemAssert.Is(response, 400, "malformed-request", pointer, code);
    }

    [Fact]
    public async Task A_batch_under_a_key_is_stored_once()
    {
        var key = ("Idempotency-Key", Guid.NewGuid().ToString());
        var body = Batch("{\"athlete\":{\"event\":\"100m\"},\"phase\":\"taper\",\"count\":1}", "{}");

        using var first = await api.Post(Path, body, key);
        var before = api.DecisionCount();
        using var second = await api.Post(Path, body, key);

        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        Assert.Equal(before, api.DecisionCount());
    }

    private static IEnumerable<string> Pointers(JsonNode place) => place["problem"]!["errors"]!.AsArray().Select(e => (string)e!["pointer"]!);

    private static string Batch(params string[] requests) => $"{{\"requests\":[{string.Join(',', requests)}]}}";
}
