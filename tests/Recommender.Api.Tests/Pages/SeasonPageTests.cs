using System.Net;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>What the season and hand-over pages promise over HTTP.</summary>
public sealed class SeasonPageTests(ApiHost host) : IClassFixture<ApiHost>
{
    [Theory]
    [InlineData("event=discus&competition=2020-01-01", "This day is past", "value=\"2020-01-01\"")]
    [InlineData("event=discus&competition=soon", "This is no date", "value=\"soon\"")]
    [InlineData("event=discus&weeksToCompetition=900", "0 to 60", "value=\"900\"")]
    [InlineData("event=moon-jump&weeksToCompetition=9", "no event known", "value=\"9\"")]
    [InlineData("event=discus", "The competition is missing", "Discus")]
    [InlineData("event=discus&weeksToCompetition=9&phase=general-preparation&lengths.taper=12", "more than the 9 weeks", "value=\"12\"")]
    [InlineData("event=discus&weeksToCompetition=9&lengths.taper=x", "whole weeks", "value=\"x\"")]
    public async Task What_is_wrong_is_said_and_what_was_typed_is_kept(string query, string message, string kept)
    {
        using var response = await host.Client.GetAsync("/season?" + query);
        var page = WebUtility.HtmlDecode(await response.Content.ReadAsStringAsync());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, response.StatusCode);
        Assert.Contains(message, page, StringComparison.Ordinal);
        Assert.Contains(kept, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Looking_records_nothing_and_what_is_not_there_is_a_page()
    {
        var forms = new FormClient(host);
        var (_, sheet, _) = await forms.Post("/squad/sheet", "/squad", [("ref", "NM-01"), ("ref", "NM-04")]);
        Assert.Equal(2, host.DecisionCount());
        foreach (var path in new[] { "/season?athlete=NM-04", "/season?event=discus&weeksToCompetition=9", "/athletes/NM-04", "/athletes/NM-04/edit", sheet!, sheet + "&racks=1", sheet + "&trade=0:1:none:back-squat" })
        {
            await forms.Get(path);
        }

        Assert.Equal(2, host.DecisionCount());
        foreach (var path in new[] { "/athletes/nobody", "/athletes/nobody/edit", "/squad/sheet?d=none" })
        {
            using var response = await host.Client.GetAsync(path);
            Assert.Equal(HttpStatusCode.NotFound, response.StatusCode);
            Assert.Equal("text/html", response.Content.Headers.ContentType!.MediaType);
        }
    }

    [Fact]
    public async Task A_profile_from_elsewhere_is_not_saved_and_comes_back_as_typed()
    {
        using var response = await host.Client.PostAsync("/athletes/NM-04/edit", new FormUrlEncodedContent([new("name", "Somebody else"), new("save", "save")]));
        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Contains("value=\"Somebody else\"", await response.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("Solveig Amadi", (string)(await host.Get("/v1/athletes/NM-04"))["name"]!);
    }
}
