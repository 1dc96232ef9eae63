using System.Text;
using System.Text.Json.Nodes;
using Recommender.Answers.Access;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Access;

public sealed class KeyEndpointsTests : IAsyncLifetime
{
    private readonly ApiHost api = new();

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await api.DisposeAsync();

    [Fact]
    public async Task A_key_is_shown_once_used_listed_changed_and_ended()
    {
        var admin = await api.Key("club", Scopes.Admin);
        using var created = await api.Ask(admin, "POST", "/v1/keys", """{"scopes":["recommend"],"note":"field laptop","expiresInDays":30}""");
        Assert.Equal(201, (int)created.StatusCode);
        Assert.True(created.Headers.CacheControl?.NoStore);
        var made = JsonNode.Parse(await created.Content.ReadAsStringAsync())!;
        var (key, id) = ((string)made["key"]!, (string)made["about"]!["id"]!);
        await api.Text(key, 200, "GET", "/v1/vocabulary");
        await api.Text(key, 403, "GET", "/v1/keys");

        var listed = JsonNode.Parse(await api.Text(admin, 200, "GET", "/v1/keys"))!["items"]!.AsArray();
        Assert.Equal(2, listed.Count);
        Assert.DoesNotContain(key[^64..], listed.ToJsonString());
        Assert.Equal(("field laptop", "usable"), ((string)listed.Single(k => (string)k!["id"]! == id)!["note"]!, (string)listed.Single(k => (string)k!["id"]! == id)!["state"]!));

        var changed = (string)JsonNode.Parse(await api.Text(admin, 200, "POST", $"/v1/keys/{id}/rotation"))!["key"]!;
        await api.Text(key, 401, "GET", "/v1/vocabulary");
        await api.Text(changed, 200, "GET", "/v1/vocabulary");

        await api.Text(admin, 204, "DELETE", $"/v1/keys/{id}");
        await api.Text(admin, 204, "DELETE", $"/v1/keys/{id}");
        await api.Text(changed, 401, "GET", "/v1/vocabulary");
        using var over = await api.Ask(admin, "POST", $"/v1/keys/{id}/rotation");
        await ProblemAssert.Is(over, 409, "state-forbids");
        NowhereIn(api.Folder, key, changed, admin);
    }

    [Fact]
    public async Task The_first_key_is_made_on_the_machine_and_not_over_the_api()
    {
        using var refused = await api.Post("/v1/keys", """{"scopes":["admin"]}""");

        var problem = await ProblemAssert.Is(refused, 403, "scope-missing");
        Assert.Contains("keys create", (string)problem["detail"]!);
    }

    [Fact]
    public async Task Wrong_values_are_told_at_once_and_an_idempotency_key_is_refused()
    {
        var admin = await api.Key("club", Scopes.Admin);
        using var wrong = await api.Ask(admin, "POST", "/v1/keys", """{"scopes":["recommend","everything"],"note":"a\nb","expiresInDays":0}""");
        var problem = await ProblemAssert.Is(wrong, 422, "invalid-request", "/scopes/1", "unknown-id");
        Assert.Equal(["/scopes/1", "/note", "/expiresInDays"], problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!));
        using var none = await api.Ask(admin, "POST", "/v1/keys", "{}");
        await ProblemAssert.Is(none, 422, "invalid-request", "/scopes", "required");
        using var repeated = await api.Ask(admin, "POST", "/v1/keys", """{"scopes":["recommend"]}""", ("Idempotency-Key", "again"));
        await ProblemAssert.Is(repeated, 400, "malformed-request");
        using var unknown = await api.Ask(admin, "DELETE", "/v1/keys/0123456789abcdef");
        await ProblemAssert.Is(unknown, 404, "not-found");
        using var overlong = await api.Ask(admin, "POST", "/v1/keys/0123456789abcdef/rotation", """{"overlapMinutes":100000}""");
        await ProblemAssert.Is(overlong, 422, "invalid-request", "/overlapMinutes", "out-of-range");
    }

    /// <summary>No secret stands in any file of the store, neither as it is shown nor as bytes.</summary>
    private static void NowhereIn(string folder, params string[] keys)
    {
        foreach (var file in Directory.GetFiles(folder))
        {
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            using var copy = new MemoryStream();
            stream.CopyTo(copy);
            var bytes = copy.ToArray();
            Assert.All(keys, key => Assert.True(bytes.AsSpan().IndexOf(Encoding.ASCII.GetBytes(key[^64..])) < 0 && bytes.AsSpan().IndexOf(Convert.FromHexString(key[^64..])) < 0, $"{Path.GetFileName(file)} holds a secret"));
        }
    }
}
