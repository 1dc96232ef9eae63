using System.Text.Json.Nodes;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Vocabulary;

[Collection(SharedApi.Name)]
public sealed class VocabularyEndpointsTests(ApiHost api)
{
    // The lists that the HTTP contract promises.
    public static TheoryData<string> Lists => new(
        "eventGroups,events,phases,qualities,regions,supports,loadingRates,loadBands,patterns,directions,contractions,equipment,places,settingLimits,redFlags,competences,importances,doseUnits,intensityKinds,reasons,factors,bases,verdicts"
            .Split(','));

    [Theory]
    [MemberData(nameof(Lists))]
    public async Task Every_list_is_there_with_id_label_and_definition(string list)
    {
        var terms = (await api.Get("/v1/vocabulary"))[list]!.AsArray();

        Assert.NotEmpty(terms);
        Assert.All(terms, t =>
        {
            Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)*$", Text(t, "id"));
            Assert.NotEmpty(Text(t, "label"));
            Assert.NotEmpty(Text(t, "definition"));
        });
        Assert.Equal(terms.Count, terms.Select(t => Text(t, "id")).Distinct().Count());
    }

    [Fact]
    public async Task Events_name_their_group_places_their_equipment_and_red_flags_scope_urgency_and_question()
    {
        var vocabulary = await api.Get("/v1/vocabulary");
        var groups = vocabulary["eventGroups"]!.AsArray().Select(t => Text(t, "id")).ToHashSet();
        var equipment = vocabulary["equipment"]!.AsArray().Select(t => Text(t, "id")).ToHashSet();

        Assert.All(vocabulary["events"]!.AsArray(), e => Assert.Contains(Text(e, "eventGroup"), groups));
        Assert.All(vocabulary["places"]!.AsArray(), p => Assert.All(p!["equipment"]!.AsArray(), e => Assert.Contains((string)e!, equipment)));
        Assert.All(vocabulary["redFlags"]!.AsArray(), f =>
        {
            Assert.True(Text(f, "scope") is "all" or "regions");
            Assert.True(Text(f, "urgency") is "emergency" or "same-day" or "within-days");
            Assert.EndsWith("?", Text(f, "question"));
        });
    }

    // The contract's own examples of ids that callers may rely on.
    [Theory]
    [InlineData("places", "full-gym,club-gym,school-gym,hotel,home,track,outdoors")]
    [InlineData("settingLimits", "no-impact,quiet,small-space")]
    [InlineData("phases", "general-preparation,specific-preparation,pre-competition,competition,taper,transition")]
    [InlineData("supports", "double,split,single,off-feet")]
    [InlineData("loadingRates", "isometric,slow,fast,impact")]
    [InlineData("bases", "published,modelled,common-practice,recalled")]
    public async Task Closed_lists_hold_what_the_contract_says(string list, string ids)
    {
        var terms = (await api.Get("/v1/vocabulary"))[list]!.AsArray();

        Assert.Equal(ids.Split(','), terms.Select(t => Text(t, "id")));
    }

    private static string Text(JsonNode? term, string property) => (string)term![property]!;
}
