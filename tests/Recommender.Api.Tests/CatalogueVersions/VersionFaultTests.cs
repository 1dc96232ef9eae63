using Recommender.Api.Tests.Access;
using Recommender.Api.Tests.Hosting;
using Recommender.Api.Tests.Pages;

namespace Recommender.Api.Tests.CatalogueVersions;

/// <summary>What is refused before anything is kept.</summary>
[Collection(SharedApi.Name)]
public sealed class VersionFaultTests(ApiHost api)
{
    [Theory]
    [InlineData("""{"upsert":[{"name":"A"}]}""", 422, "/upsert/0/id")]
    [InlineData("""{"upsert":[{"id":"a","pattern":"squat"},{"id":"a","pattern":"squat"}]}""", 422, "/upsert/1/id")]
    [InlineData("""{"remove":["nothing"]}""", 422, "/remove/0")]
    [InlineData("""{"basedOn":"nothing","remove":[]}""", 422, "/basedOn")]
    [InlineData("""{"upsert":[{"id":"a","pattern":"squat"}]}""", 422, "/upsert/0")]
    [InlineData("""{"upsert":[1]}""", 400, "/upsert/0")]
    [InlineData("""{"colour":"red"}""", 400, "/colour")]
    public async Task A_draft_that_is_wrong_says_where(string body, int status, string pointer)
    {
        using var response = await api.Post("/v1/catalogue/versions", body);

        var problem = await ProblemAssert.Is(response, status, status == 400 ? "malformed-request" : "invalid-request");
        Assert.Contains(pointer, problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!));
    }

    [Theory]
    [InlineData("catalogue", """{"dryRun":true,"upsert":[null]}""", "/upsert/0")]
    [InlineData("catalogue", """{"dryRun":true,"remove":[null]}""", "/remove/0")]
    [InlineData("catalogue", """{"dryRun":true,"upsert":[null],"remove":["back-squat",null]}""", "/upsert/0", "/remove/1")]
    [InlineData("rules", """{"dryRun":true,"upsert":[null]}""", "/upsert/0")]
    [InlineData("rules", """{"dryRun":true,"remove":[null]}""", "/remove/0")]
    [InlineData("rules", """{"dryRun":true,"upsert":[null,{"file":null,"content":{}}],"remove":["rules/pain.json",null]}""", "/upsert/0", "/upsert/1", "/remove/1")]
    public async Task What_stands_in_a_list_as_nothing_is_told_where_it_stands(string kind, string body, params string[] pointers)
    {
        using var response = await api.Post($"/v1/{kind}/versions", body);

        var problem = await ProblemAssert.Is(response, 422, "invalid-request");
        Assert.Superset(pointers.ToHashSet(), problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!).ToHashSet());
    }

    [Theory]
    [InlineData("/v1/decisions/00000000-0000-7000-8000-000000000000/replay", "{}", 404, "not-found")]
    [InlineData("/v1/catalogue/versions/nothing/impact", "{}", 404, "not-found")]
    [InlineData("/v1/catalogue/versions/current/impact", "{\"last\":0}", 422, "invalid-request")]
    public async Task What_is_not_there_is_told(string path, string body, int status, string code)
    {
        using var response = await api.Post(path, body);

        await ProblemAssert.Is(response, status, code);
    }
}

/// <summary>A store whose version in force has lost its text, as one was left by an older program.</summary>
public sealed class LostVersionTests
{
    [Fact]
    public async Task A_version_that_is_shipped_can_be_put_in_force_again()
    {
        using var first = new ApiHost();
        var was = (string)(await first.Get("/v1/catalogue/versions"))["items"]![0]!["version"]!;
        Assert.Equal(1, first.Sql($"""
            INSERT INTO knowledge_publications (organisation, catalogue_version, rules_version, published_at)
            SELECT 'local', '{new string('0', 32)}', version, 1 FROM knowledge_versions WHERE kind = 'rules';
            SELECT COUNT(*) FROM knowledge_publications
            """));
        using var api = first.Again();
        using var refused = await api.Post("/v1/recommendations", Examples.Minimal());
        var problem = await ProblemAssert.Is(refused, 503, "store-unavailable");
        Assert.Contains(new string('0', 32), (string)problem["detail"]!);
        Assert.Contains("PUT /v1/catalogue/current", (string)problem["detail"]!);
        Assert.Equal([was], (await api.Get("/v1/catalogue/versions"))["items"]!.AsArray().Select(v => (string)v!["version"]!));
        using var lost = await Put(api, new string('0', 32));
        await ProblemAssert.Is(lost, 422, "invalid-request");

        using var put = await Put(api, was);

        Assert.Equal(200, (int)put.StatusCode);
        Assert.Equal(was, (string)(await api.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["catalogue"]!);
    }

    /// <summary>The same as a coach meets it: pages say what happened, and lead to where another version is put in force.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task The_pages_say_that_what_is_in_force_cannot_be_read_and_lead_out_of_it(bool lost)
    {
        using var first = new ApiHost();
        var was = (string)(await first.Get("/v1/catalogue/versions"))["items"]![0]!["version"]!;
        var broken = new string('0', 32);
        first.Sql($"""
            INSERT INTO knowledge_versions (organisation, kind, version, based_on, created_at, content) SELECT 'local', 'catalogue', '{broken}', NULL, 1, x'00' WHERE {(lost ? 0 : 1)};
            INSERT INTO knowledge_publications (organisation, catalogue_version, rules_version, published_at) SELECT 'local', '{broken}', version, 1 FROM knowledge_versions WHERE kind = 'rules';
            SELECT COUNT(*) FROM knowledge_publications
            """);
        using var api = first.Again();
        var forms = new FormClient(api);

        foreach (var path in new[] { "/", "/squad", "/exercises", "/decisions", "/versions/upload" })
        {
            using var asked = await api.Ask(null, "GET", path, null, ("Accept", "text/html"));
            var page = await asked.Content.ReadAsStringAsync();
            Assert.Equal((503, "text/html"), ((int)asked.StatusCode, asked.Content.Headers.ContentType?.MediaType));
            Assert.Contains("What is in force cannot be read", page, StringComparison.Ordinal);
            Assert.Contains(broken[..12], page, StringComparison.Ordinal);
            Assert.Contains("class=\"button\" href=\"/versions\"", page, StringComparison.Ordinal);
            Assert.DoesNotContain("Send the same request again", page, StringComparison.Ordinal);
        }

        var list = await forms.Get("/versions");
        Assert.Contains("cannot be read here", list, StringComparison.Ordinal);
        Assert.Contains($"href=\"/versions/catalogue/{was}\"", list, StringComparison.Ordinal);
        var version = await forms.Get($"/versions/catalogue/{was}");
        Assert.Contains($"href=\"/versions/catalogue/{was}/publish\"", version, StringComparison.Ordinal);
        var ask = await forms.Get($"/versions/catalogue/{was}/publish");
        Assert.Contains($"value=\"{broken}\"", ask, StringComparison.Ordinal);
        var (status, location, _) = await forms.Post($"/versions/catalogue/{was}/publish", $"/versions/catalogue/{was}/publish", [("inForce", broken)]);

        Assert.Equal((303, "/versions?done=published"), ((int)status, location));
        Assert.DoesNotContain("cannot be read here", await forms.Get("/versions"), StringComparison.Ordinal);
        await forms.Get("/");
        Assert.Equal(was, (string)(await api.Answer("/v1/recommendations", Examples.Minimal()))["versions"]!["catalogue"]!);
    }

    private static Task<HttpResponseMessage> Put(ApiHost api, string version) =>
        api.Client.PutAsync("/v1/catalogue/current", new StringContent($$"""{"version":"{{version}}"}""", System.Text.Encoding.UTF8, "application/json"));
}
