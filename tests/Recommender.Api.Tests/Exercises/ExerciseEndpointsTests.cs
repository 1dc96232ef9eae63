using System.Globalization;
using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Exercises;

[Collection(SharedApi.Name)]
public sealed class ExerciseEndpointsTests(ApiHost api)
{
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(100)]
    public async Task Walking_all_pages_gives_the_whole_catalogue_once_and_in_order(int limit)
    {
        var whole = await Walk("limit=100");

        var walked = await Walk($"limit={limit}");

        Assert.True(whole.Count > 100, "a catalogue that fits one page proves nothing");
        Assert.Equal(whole, walked);
        Assert.Equal(walked.Order(StringComparer.Ordinal).Distinct(), walked);
    }

    [Fact]
    public async Task A_page_holds_fifty_when_no_limit_is_given()
    {
        var page = await api.Get("/v1/exercises");

        Assert.Equal(50, page["items"]!.AsArray().Count);
        Assert.NotNull(page["nextCursor"]);
    }

    [Fact]
    public async Task Every_filter_gives_exactly_the_exercises_that_fit_it()
    {
        var all = await Items("limit=100");

        await Matches(all, "quality=hamstring-capacity", e => e["qualities"]!["hamstring-capacity"] is not null);
        await Matches(all, "support=off-feet", e => (string)e["support"]! == "off-feet");
        await Matches(all, "pattern=hinge", e => (string)e["pattern"]! == "hinge");
        await Matches(all, "equipment=band", e => e["equipment"]!.AsArray().Any(set => set!.AsArray().Any(x => (string)x! == "band")));
        await Matches(all, "q=DEADlift", e => Names(e).Any(n => n.Contains("deadlift", StringComparison.OrdinalIgnoreCase)));
        await Matches(all, "support=single&quality=calf-capacity", e => (string)e["support"]! == "single" && e["qualities"]!["calf-capacity"] is not null);
    }

    [Fact]
    public async Task A_region_alone_gives_what_loads_it_and_with_a_limit_what_spares_it()
    {
        var loaded = await Walk("region=patellar-tendon&limit=100");
        var spared = await Walk("region=patellar-tendon&maxLoad=0&limit=100");
        var light = await Items("region=patellar-tendon&maxLoad=3.3&limit=100");

        Assert.Empty(loaded.Intersect(spared));
        Assert.Equal((await Walk("limit=100")).Count, loaded.Count + spared.Count);
        Assert.All(light, e => Assert.True(e["tissueLoad"]!["patellar-tendon"] is not { } load || (decimal)load["high"]! <= 3.3m));
        Assert.Contains(light, e => e["tissueLoad"]!["patellar-tendon"] is not null);
    }

    [Fact]
    public async Task A_filter_that_nothing_fits_gives_an_empty_page()
    {
        var page = await api.Get("/v1/exercises?q=zzzz");

        Assert.Empty(page["items"]!.AsArray());
        Assert.True(page.ContainsKey("nextCursor") && page["nextCursor"] is null);
    }

    [Theory]
    [InlineData("quality=strength", "?quality", "unknown-id")]
    [InlineData("support=one-leg", "?support", "unknown-id")]
    [InlineData("equipment=bands", "?equipment", "unknown-id")]
    [InlineData("region=knees", "?region", "unknown-id")]
    [InlineData("pattern=HINGE", "?pattern", "unknown-id")]
    [InlineData("maxLoad=3", "?maxLoad", "contradiction")]
    [InlineData("region=knee&maxLoad=11", "?maxLoad", "out-of-range")]
    [InlineData("region=knee&maxLoad=-1", "?maxLoad", "out-of-range")]
    [InlineData("region=knee&maxLoad=3,3", "?maxLoad", "out-of-range")]
    [InlineData("limit=0", "?limit", "out-of-range")]
    [InlineData("limit=101", "?limit", "out-of-range")]
    [InlineData("limit=2.5", "?limit", "out-of-range")]
    [InlineData("limit=ten", "?limit", "out-of-range")]
    [InlineData("limit=5&limit=6", "?limit", "given-twice")]
    [InlineData("cursor=***", "?cursor", "unknown-id")]
    [InlineData("cursor=_w", "?cursor", "unknown-id")]
    [InlineData("cursor=QkFDSw", "?cursor", "unknown-id")]
    [InlineData("colour=red", "?colour", "unknown-parameter")]
    [InlineData("Quality=grip", "?Quality", "unknown-parameter")]
    public async Task A_query_that_cannot_be_used_is_refused_by_name(string query, string pointer, string code)
    {
        using var response = await api.Client.GetAsync($"/v1/exercises?{query}");

        await ProblemAssert.Is(response, 400, "malformed-request", pointer, code);
    }

    [Fact]
    public async Task Everything_wrong_with_a_query_is_told_at_once()
    {
        using var response = await api.Client.GetAsync("/v1/exercises?quality=x&limit=0&colour=red");

        var problem = await ProblemAssert.Is(response, 400, "malformed-request");
        Assert.Equal(["?colour", "?limit", "?quality"], problem["errors"]!.AsArray().Select(e => (string)e!["pointer"]!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task One_exercise_is_the_same_alone_and_on_its_page()
    {
        var listed = Assert.Single(await Items("q=nordic-hamstring-lower&limit=100"), e => (string)e["id"]! == "nordic-hamstring-lower");

        var alone = await api.Get("/v1/exercises/nordic-hamstring-lower");

        Assert.True(JsonNode.DeepEquals(listed, alone));
        Assert.NotNull(alone["loadingsPerUnit"]);
    }

    [Theory]
    [InlineData("/v1/exercises/no-such-exercise")]
    [InlineData("/v1/exercises/BACK-SQUAT")]
    [InlineData("/v1/exercises/..%2Fetc")]
    public async Task An_unknown_exercise_is_not_found(string path)
    {
        using var response = await api.Client.GetAsync(path);

        await ProblemAssert.Is(response, 404, "not-found");
    }

    private static IEnumerable<string> Names(JsonNode exercise) =>
        exercise["synonyms"]!.AsArray().Select(s => (string)s!).Prepend((string)exercise["name"]!).Prepend((string)exercise["id"]!);

    private async Task Matches(List<JsonNode> all, string query, Func<JsonNode, bool> fits)
    {
        var expected = all.Where(fits).Select(e => (string)e["id"]!).ToList();
        Assert.True(expected.Count > 0 && expected.Count < all.Count, query);
        Assert.Equal(expected, await Walk($"{query}&limit=100"));
    }

    private async Task<List<string>> Walk(string query) => [.. (await Items(query)).Select(e => (string)e["id"]!)];

    private async Task<List<JsonNode>> Items(string query)
    {
        var items = new List<JsonNode>();
        string? cursor = null;
        do
        {
            var page = await api.Get($"/v1/exercises?{query}{(cursor is null ? "" : $"&cursor={cursor}")}");
            items.AddRange(page["items"]!.AsArray().Select(i => i!));
            cursor = (string?)page["nextCursor"];
            Assert.True(items.Count < 10_000, string.Create(CultureInfo.InvariantCulture, $"the walk of {query} does not end"));
        }
        while (cursor is not null);
        return items;
    }
}
