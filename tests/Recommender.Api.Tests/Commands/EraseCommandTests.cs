using Microsoft.Extensions.Configuration;
using Recommender.Api.Commands;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Commands;

/// <summary>Athletes under refs that no address can name, as older programs kept them (RFC 3986, 5.2.4: dots alone lead elsewhere).</summary>
public sealed class EraseCommandTests : IDisposable
{
    private readonly ApiHost api = new();

    public void Dispose() => api.Dispose();

    [Theory]
    [InlineData(".")]
    [InlineData("..")]
    [InlineData("NM-04")]
    public async Task Erases_profile_and_decisions_under_any_ref_beside_a_running_service_and_of_the_named_organisation_alone(string reference)
    {
        var answer = await api.Answer("/v1/recommendations", Examples.Minimal(b => b["athlete"]!["ref"] = "NM-04"));
        var decision = (string)answer["decisionId"]!;
        api.Sql($"""
            UPDATE decisions SET athlete_ref = '{reference}' WHERE organisation = 'local';
            DELETE FROM athletes WHERE ref <> 'NM-04';
            UPDATE athletes SET ref = '{reference}', profile = replace(profile, 'NM-04', '{reference}');
            INSERT INTO athletes (organisation, ref, profile, updated_at) SELECT 'club', ref, profile, updated_at FROM athletes;
            SELECT COUNT(*) FROM athletes
            """);

        var (code, said) = await Run(reference);
        var (again, nothing) = await Run(reference);

        Assert.Equal((0, 1), (code, again));
        Assert.StartsWith("Erased at local", said);
        Assert.StartsWith("local has no profile", nothing);
        Assert.Empty((await api.Get("/v1/athletes"))["items"]!.AsArray());
        Assert.True((bool)(await api.Get($"/v1/decisions/{decision}"))["personalDataErased"]!);
        Assert.True((bool)(await api.Answer("/v1/decisions/verify", "{}"))["intact"]!);
        Assert.Equal(1, api.Sql("SELECT COUNT(*) FROM athletes WHERE organisation = 'club'"));
        var (ofClub, told) = await Run(reference, "--organisation", "club");
        Assert.Equal(0, ofClub);
        Assert.StartsWith("Erased at club", told);
        Assert.Equal(0, api.Sql("SELECT COUNT(*) FROM athletes"));
    }

    [Fact]
    public async Task Says_what_is_missing()
    {
        Assert.Equal(2, (await Run()).Code);
        Assert.Equal(2, (await Run("A", "--organisation")).Code);
        var (code, said) = await Run("A", "--organisation", "The Club");
        Assert.Equal(2, code);
        Assert.Contains("The Club", said);
    }

    private async Task<(int Code, string Said)> Run(params string[] args)
    {
        using var said = new StringWriter();
        var configuration = new ConfigurationBuilder().AddInMemoryCollection([KeyValuePair.Create("Storage:Path", (string?)api.Folder)]).Build();
        _ = api.Client;
        return (await EraseCommand.Run([EraseCommand.Name, .. args], configuration, said, said), said.ToString());
    }
}
