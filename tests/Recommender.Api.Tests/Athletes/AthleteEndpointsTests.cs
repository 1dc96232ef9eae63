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

    /// <summary>RFC 3986, 5.2.4: dots alone lead elsewhere, so that no address could name such an athlete.</summary>
    [Theory]
    [InlineData(".")]
    [InlineData("..")]
    public async Task A_ref_that_no_address_can_name_is_refused_and_told_what_may_stand_in_one(string reference)
    {
        using var asked = await api.Post("/v1/recommendations", Examples.Minimal(b => b["athlete"]!["ref"] = reference));
        await Refused(asked, "/athlete/ref");
        using var substitution = await api.Post("/v1/substitutions", $$"""{"exercise":"back-squat","context":{{Examples.Minimal(b => b["athlete"]!["ref"] = reference)}}}""");
        await Refused(substitution, "/context/athlete/ref");
        using var session = await api.Post("/v1/sessions", $$"""{"context":{{Examples.Minimal(b => b["athlete"]!["ref"] = reference)}}}""");
        await Refused(session, "/context/athlete/ref");
        var batch = await api.Answer("/v1/recommendations/batch", $$"""{"requests":[{{Examples.Minimal(b => b["athlete"]!["ref"] = reference)}}]}""");
        Assert.Contains("stands in addresses", batch.ToJsonString());
        Assert.DoesNotContain("decisionId", batch.ToJsonString());

        using var profile = new StringContent(new JsonObject { ["ref"] = reference, ["name"] = "A", ["athlete"] = new JsonObject { ["eventGroup"] = "jumps" } }.ToJsonString(), System.Text.Encoding.UTF8, "application/json");
        using var saved = await api.Client.PutAsync("/v1/athletes/other", profile);
        await Refused(saved, "/ref");

        static async Task Refused(HttpResponseMessage response, string pointer)
        {
            var problem = await ProblemAssert.Is(response, 422, "invalid-request");
            Assert.Contains(problem["errors"]!.AsArray(), e => (string)e!["pointer"]! == pointer && ((string)e["message"]!).Contains("stands in addresses", StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("a.b")]
    [InlineData("a/b")]
    [InlineData("a\\b")]
    [InlineData("100%")]
    [InlineData("../../etc/passwd")]
    [InlineData("...")]
    [InlineData("NM 04 (ä)")]
    public async Task Other_refs_are_taken(string reference) => await api.Answer("/v1/recommendations", Examples.Minimal(b => b["athlete"]!["ref"] = reference));

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

/// <summary>What changes profiles, on a store of their own.</summary>
public sealed class AthleteChangeTests(ApiHost api) : IClassFixture<ApiHost>
{
    [Fact]
    public async Task A_profile_is_saved_changed_and_found_again()
    {
        using var made = await Put("NM-60", """{"name":"Ilka Varro","athlete":{"eventGroup":"jumps"}}""");
        using var changed = await Put("NM-60", """{"ref":"NM-60","name":"Ilka Varro","athlete":{"eventGroup":"jumps"},"phase":"taper"}""");

        Assert.Equal((201, 200), ((int)made.StatusCode, (int)changed.StatusCode));
        Assert.Equal("taper", (string)(await api.Get("/v1/athletes/NM-60"))["phase"]!);
    }

    [Theory]
    [InlineData("{\"name\":\"A\"}", "/athlete", "required")]
    [InlineData("{\"athlete\":{\"eventGroup\":\"jumps\"}}", "/name", "required")]
    [InlineData("{\"name\":\"\",\"athlete\":{\"eventGroup\":\"jumps\"}}", "/name", "out-of-range")]
    [InlineData("{\"ref\":\"NM-51\",\"name\":\"A\",\"athlete\":{\"eventGroup\":\"jumps\"}}", "/ref", "contradiction")]
    [InlineData("{\"name\":\"A\",\"athlete\":{\"eventGroup\":\"jumps\"},\"complaints\":[{\"region\":\"patellar-tendon\",\"pain\":11}]}", "/complaints/0/pain", "out-of-range")]
    [InlineData("{\"name\":\"A\",\"athlete\":{\"eventGroup\":\"jumps\"},\"phase\":\"winter\"}", "/phase", "unknown-id")]
    public async Task A_profile_that_no_form_could_use_is_refused_and_nothing_is_saved(string body, string pointer, string code)
    {
        using var response = await Put("NM-50", body);

        await ProblemAssert.Is(response, 422, "invalid-request", pointer, code);
        using var after = await api.Client.GetAsync("/v1/athletes/NM-50");
        Assert.Equal(404, (int)after.StatusCode);
    }

    [Fact]
    public async Task A_ref_that_no_request_could_hold_is_refused()
    {
        using var response = await Put(new string('x', 101), """{"name":"A","athlete":{"eventGroup":"jumps"}}""");

        await ProblemAssert.Is(response, 422, "invalid-request", "/ref", "out-of-range");
    }

    private Task<HttpResponseMessage> Put(string reference, string body) =>
        api.Client.PutAsync($"/v1/athletes/{reference}", new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
}
