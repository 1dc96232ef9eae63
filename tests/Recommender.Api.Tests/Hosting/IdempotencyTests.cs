using System.Text.Json.Nodes;

namespace Recommender.Api.Tests.Hosting;

[Collection(SharedApi.Name)]
public sealed class IdempotencyTests(ApiHost api)
{
    private const string Path = "/v1/recommendations";

    [Fact]
    public async Task The_same_key_and_body_give_the_same_bytes_and_one_stored_decision()
    {
        var key = NewKey();
        var before = api.DecisionCount();

        using var first = await api.Post(Path, Examples.Minimal(), key);
        using var second = await api.Post(Path, Examples.Minimal(), key);

        Assert.Equal(200, (int)first.StatusCode);
        Assert.Equal(200, (int)second.StatusCode);
        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        Assert.Equal(first.Content.Headers.ContentType, second.Content.Headers.ContentType);
        Assert.Equal(before + 1, api.DecisionCount());
    }

    [Fact]
    public async Task Many_at_once_under_one_key_are_decided_once()
    {
        var key = NewKey();
        var before = api.DecisionCount();

        var responses = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => api.Post(Path, Examples.Minimal(), key)));

        var bodies = await Task.WhenAll(responses.Select(r => r.Content.ReadAsStringAsync()));
        Assert.All(responses, r => Assert.Equal(200, (int)r.StatusCode));
        Assert.Single(bodies.Distinct());
        Assert.Equal(before + 1, api.DecisionCount());
    }

    [Fact]
    public async Task The_same_key_with_another_body_is_a_conflict()
    {
        var key = NewKey();
        using var first = await api.Post(Path, Examples.Minimal(), key);
        var before = api.DecisionCount();

        using var second = await api.Post(Path, Examples.Minimal(b => b["count"] = 3), key);

        await ProblemAssert.Is(second, 409, "idempotency-conflict");
        Assert.Equal(before, api.DecisionCount());
    }

    [Fact]
    public async Task The_same_key_on_another_path_is_a_conflict()
    {
        var key = NewKey();
        using var first = await api.Post(Path, Examples.Minimal(), key);

        using var second = await api.Post("/v1/recommendations/batch", Examples.Minimal(), key);

        await ProblemAssert.Is(second, 409, "idempotency-conflict");
    }

    [Fact]
    public async Task A_request_that_was_refused_leaves_its_key_free()
    {
        var key = NewKey();
        using var refused = await api.Post(Path, Examples.Minimal(b => b["count"] = 99), key);
        using var mended = await api.Post(Path, Examples.Minimal(b => b["count"] = 9), key);

        Assert.Equal(422, (int)refused.StatusCode);
        Assert.Equal(200, (int)mended.StatusCode);
        Assert.Equal(9, JsonNode.Parse(await mended.Content.ReadAsStringAsync())!["picks"]!.AsArray().Count);
    }

    [Fact]
    public async Task Two_keys_are_two_decisions()
    {
        using var first = await api.Post(Path, Examples.Minimal(), NewKey());
        using var second = await api.Post(Path, Examples.Minimal(), NewKey());

        Assert.NotEqual(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
    }

    public static TheoryData<string[]> BadKeys => new(
        ["two words"], ["clé"], [new string('k', 201)], ["one", "two"]);

    [Theory]
    [MemberData(nameof(BadKeys))]
    public async Task A_key_that_is_no_plain_text_is_refused(string[] keys)
    {
        using var response = await api.Post(Path, Examples.Minimal(), [.. keys.Select(k => ("Idempotency-Key", k))]);

        var problem = await ProblemAssert.Is(response, 400, "malformed-request");
        Assert.Contains("Idempotency-Key", (string)problem["detail"]!);
    }

    [Fact]
    public async Task The_longest_key_is_taken()
    {
        using var response = await api.Post(Path, Examples.Minimal(), ("Idempotency-Key", Guid.NewGuid().ToString("N").PadRight(200, '~')));

        Assert.Equal(200, (int)response.StatusCode);
    }

    private static (string Name, string Value) NewKey() => ("Idempotency-Key", Guid.NewGuid().ToString());
}
