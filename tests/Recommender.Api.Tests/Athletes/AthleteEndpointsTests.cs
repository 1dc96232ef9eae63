using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Athletes;

[Collection(SharedApi.Name)]
public sealed class AthleteEndpointsTests(ApiHost api)
{
    [Fact]
    public async Task A_new_store_holds_the_demo_squad_by_ref()
    {
        var squad = (await api.Get("/v1/athletes"))["items"]!.AsArray();

        var refs = squad.Select(a => (string)a!["ref"]!).ToList();
        Assert.Contains("NM-04", refs);
        Assert.Equal(refs.Order(StringComparer.Ordinal), refs);
    }

    [Fact]
    public async Task One_profile_is_the_same_alone_and_in_the_list()
    {
        var listed = (await api.Get("/v1/athletes"))["items"]!.AsArray().Single(a => (string)a!["ref"]! == "NM-04");

        Assert.True(JsonNode.DeepEquals(listed, await api.Get("/v1/athletes/NM-04")));
    }

    [Fact]
    public async Task Every_profile_can_be_asked_about_as_it_is_saved()
    {
        foreach (var profile in (await api.Get("/v1/athletes"))["items"]!.AsArray().Select(a => a!.AsObject()))
        {
            var request = profile.DeepClone().AsObject();
            request["athlete"]!["ref"] = (string)request["ref"]!;
            request.Remove("ref");
            request.Remove("name");

            var answer = await api.Answer("/v1/recommendations", request.ToJsonString());

            Assert.Equal("answered", (string)answer["status"]!);
        }
    }

    [Theory]
    [InlineData("/v1/athletes/NM-99")]
    [InlineData("/v1/athletes/nm-04")]
    [InlineData("/v1/athletes/%27%3B--")]
    public async Task An_unknown_ref_is_not_found(string path)
    {
        using var response = await api.Client.GetAsync(path);

        await ProblemAssert.Is(response, 404, "not-found");
    }
}
