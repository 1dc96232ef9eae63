using System.Net;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>What was done with a pick, said with one tap under an answer, without script.</summary>
public sealed class OutcomePageTests : IDisposable
{
    private readonly ApiHost host = new();

    public void Dispose() => host.Dispose();

    [Fact]
    public async Task One_tap_reports_and_the_page_says_so()
    {
        var (address, id) = await Ask();
        var forms = new FormClient(host);
        Assert.Contains("<button name=\"verdict\" value=\"used\">Done", await forms.Get(address), StringComparison.Ordinal);

        var done = await forms.Post(address + "/outcome/1", address, [("verdict", "used"), ("painDuring", ""), ("note", "")]);
        var left = await forms.Post(address + "/outcome/2", address, [("verdict", "declined")]);

        Assert.Equal((HttpStatusCode.SeeOther, address + "#pick-1"), (done.Status, done.Location));
        Assert.Equal(HttpStatusCode.SeeOther, left.Status);
        var reports = (await host.Get($"/v1/decisions/{id}/outcomes"))["items"]!.AsArray();
        Assert.Equal(["used", "declined"], reports.Select(r => (string)r!["verdict"]!));
        var page = await forms.Get(address);
        Assert.Contains("Reported: done.", page, StringComparison.Ordinal);
        Assert.Contains("Reported: left out.", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pain_that_rose_is_told_at_once_and_what_is_no_number_is_refused()
    {
        var (address, id) = await Ask();
        var forms = new FormClient(host);

        var wrong = await forms.Post(address + "/outcome/1", address, [("verdict", "used"), ("painDuring", "much"), ("effort", "11")]);
        var hurt = await forms.Post(address + "/outcome/1", address, [("verdict", "used"), ("painDuring", "7"), ("effort", "6,5")]);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("Pain in it is no whole number", wrong.Body, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.SeeOther, hurt.Status);
        Assert.Equal(6.5m, (decimal)(await host.Get($"/v1/decisions/{id}/outcomes"))["items"]!.AsArray().Single()!["effort"]!);
        Assert.Contains("Pain rose: for 14 days", await forms.Get(address), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/outcome/99", HttpStatusCode.NotFound)]
    [InlineData("/outcome/1", HttpStatusCode.UnprocessableEntity)]
    public async Task What_is_not_there_or_says_nothing_is_told(string path, HttpStatusCode status)
    {
        var (address, _) = await Ask();

        Assert.Equal(status, (await new FormClient(host).Post(address + path, address, [("verdict", "loved")])).Status);
    }

    [Fact]
    public async Task A_foreign_form_reports_nothing()
    {
        var (address, id) = await Ask();
        using var content = new FormUrlEncodedContent([KeyValuePair.Create("verdict", "used")]);
        using var response = await host.Client.PostAsync(address + "/outcome/1", content);

        Assert.Equal(HttpStatusCode.BadRequest, response.StatusCode);
        Assert.Empty((await host.Get($"/v1/decisions/{id}/outcomes"))["items"]!.AsArray());
    }

    [Fact]
    public async Task The_page_of_what_was_learned_says_that_nothing_was()
    {
        Assert.Contains("Nothing was learned yet.", await new FormClient(host).Get("/preferences"), StringComparison.Ordinal);
        Assert.Contains("href=\"/preferences\"", await new FormClient(host).Get("/versions"), StringComparison.Ordinal);
    }

    private async Task<(string Address, string Id)> Ask()
    {
        var answer = await host.Answer("/v1/recommendations", Examples.Case("long-jumper-with-a-sore-patellar-tendon"));
        var id = (string)answer["decisionId"]!;
        return ("/answers/" + id, id);
    }
}
